//! The preview among many who ask, who listen, who say nothing, and who swap files under it.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]
#![cfg(unix)]

#[path = "preview/client.rs"]
#[allow(dead_code)]
mod client;

use client::{BUNS, Preview, folder, next_event, save_by_rename};
use std::fs;
use std::io::{BufReader, Write};
use std::net::TcpStream;
use std::os::unix::fs::symlink;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

const FILE: &str = "file=jetty-buns.miche";

/// A file that is swapped for a link out of the project, again and again, while it is asked for: nothing of what the link leads
/// to is ever shown. Each question hits another moment.
#[test]
fn a_link_is_not_followed_out_however_it_is_swapped_in() {
    let outside = tempfile::tempdir().expect("a folder");
    fs::write(outside.path().join("secret.miche"), BUNS.replace("Jetty buns", "Secret buns")).expect("written");
    fs::write(outside.path().join("larder.miche"), "kitchen Secret place\n").expect("written");
    let folder = folder();
    let (used, path) = (folder.path().join("larder.miche"), folder.path().join("jetty-buns.miche"));
    let buns = BUNS.replace("choose", "use \"larder.miche\"\nchoose");
    fs::write(&path, &buns).expect("written");
    fs::write(&used, "kitchen Jetty\noven x 1\n").expect("written");
    let preview = Preview::start(folder.path());
    let over = Arc::new(AtomicBool::new(false));
    let swapper = {
        let (over, folder, outside) = (Arc::clone(&over), folder.path().to_owned(), outside.path().to_owned());
        std::thread::spawn(move || {
            let beside = folder.join("beside");
            while !over.load(Ordering::Relaxed) {
                for (path, secret, text) in
                    [(&path, "secret.miche", buns.as_str()), (&used, "larder.miche", "kitchen Jetty\noven x 1\n")]
                {
                    symlink(outside.join(secret), &beside).expect("linked");
                    fs::rename(&beside, path).expect("swapped");
                    fs::write(&beside, text).expect("written");
                    fs::rename(&beside, path).expect("swapped");
                }
            }
        })
    };
    let clock = Instant::now();
    let mut shown = 0;
    while clock.elapsed() < Duration::from_secs(8) {
        for question in ["source", "state", "card"] {
            let answer = preview.get(&format!("/{question}?{FILE}"));
            assert!(!answer.body.contains("Secret"), "{question}: {}", answer.body);
            shown += usize::from(answer.status == 200);
        }
        assert!(!preview.get("/recipes").body.contains("Secret"));
    }
    over.store(true, Ordering::Relaxed);
    swapper.join().expect("it ends");
    assert!(shown > 0, "nothing was ever shown");
}

fn say(stream: &mut TcpStream, port: u16, path: &str) {
    stream.write_all(format!("GET {path} HTTP/1.1\r\nhost: 127.0.0.1:{port}\r\n\r\n").as_bytes()).expect("sent");
}

/// Connections that say nothing, and more pages that listen than there is room for, keep nobody out; and the newest page is told
/// of a save.
#[test]
fn a_crowd_keeps_nobody_out() {
    let folder = folder();
    let path = folder.path().join("jetty-buns.miche");
    let preview = Preview::start(&path);
    preview.state(FILE);
    let idle: Vec<TcpStream> = (0..300).map(|_| preview.connect()).collect();
    let clock = Instant::now();
    preview.state(FILE);
    assert!(clock.elapsed() < Duration::from_secs(5), "{:?} behind those who say nothing", clock.elapsed());
    let mut listening: Vec<TcpStream> = Vec::new();
    for _ in 0..330 {
        let mut stream = preview.connect();
        say(&mut stream, preview.port, "/events");
        listening.push(stream);
    }
    let clock = Instant::now();
    preview.state(FILE);
    assert!(clock.elapsed() < Duration::from_secs(5), "{:?} behind those who listen", clock.elapsed());
    let mut newest = preview.connect();
    say(&mut newest, preview.port, "/events");
    let mut events = BufReader::new(newest);
    let before = next_event(&mut events);
    save_by_rename(&path, &BUNS.replace("62 %", "63 %"));
    assert_ne!(next_event(&mut events), before);
    drop((idle, listening));
}

/// The list of a folder is made once for all who ask at the same time, kept while nothing is saved, and made again after a save.
#[test]
fn a_list_is_made_once_for_all() {
    let folder = folder();
    for number in 0..400 {
        let text = BUNS.replace("Jetty buns", &format!("Buns {number}"));
        fs::write(folder.path().join(format!("buns {number}.miche")), text).expect("written");
    }
    let preview = Preview::start(folder.path());
    let clock = Instant::now();
    let first = preview.get("/recipes").body;
    let once = clock.elapsed();
    assert_eq!(first.matches("\"file\"").count(), 401);
    save_by_rename(&folder.path().join("buns 7.miche"), &BUNS.replace("Jetty buns", "Other buns"));
    while !preview.get("/recipes").body.contains("Other buns") {
        assert!(clock.elapsed() < Duration::from_secs(60), "a save was not noticed");
        std::thread::sleep(Duration::from_millis(20));
    }
    let preview = &preview;
    save_by_rename(&folder.path().join("buns 8.miche"), &BUNS.replace("Jetty buns", "New buns"));
    std::thread::sleep(Duration::from_millis(200));
    let clock = Instant::now();
    std::thread::scope(|scope| {
        for _ in 0..20 {
            scope.spawn(move || assert!(preview.get("/recipes").body.contains("New buns")));
        }
        // Meanwhile a card is made.
        scope.spawn(move || preview.state(FILE));
    });
    let twenty = clock.elapsed();
    let clock = Instant::now();
    preview.get("/recipes");
    let again = clock.elapsed();
    println!("once {once:?}, twenty at a time {twenty:?}, again {again:?}");
    assert!(twenty < 6 * once + Duration::from_millis(500), "once {once:?}, twenty at a time {twenty:?}");
    assert!(again < once / 2 + Duration::from_millis(20), "once {once:?}, again {again:?}");
}

/// A plan of a batch that no kitchen can make holds up no other page, and is given up with its page.
#[test]
fn a_plan_is_given_up() {
    let folder = folder();
    let preview = Preview::start(folder.path());
    preview.state(FILE);
    let mut asking = preview.connect();
    say(&mut asking, preview.port, &format!("/plan?{FILE}&pieces=2000000&ready=2027-04-17T09:00"));
    std::thread::sleep(Duration::from_millis(200));
    let clock = Instant::now();
    preview.state(&format!("{FILE}&pieces=24"));
    assert!(clock.elapsed() < Duration::from_secs(10), "a card waited {:?} for a plan", clock.elapsed());
    drop(asking);
    let clock = Instant::now();
    let plan = preview.get(&format!("/plan?{FILE}&ready=2027-04-17T09:00"));
    assert!(plan.body.contains("<svg"), "{}", plan.body);
    assert!(clock.elapsed() < Duration::from_secs(15), "a plan waited {:?} for one that nobody wants", clock.elapsed());
}
