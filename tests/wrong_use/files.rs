//! Files that cannot be read, and files that use each other wrongly.

use crate::bench::{Bench, ERRORS, FINE, ROLLS, TROUBLE, check_finds, rolls_with};
use std::fs::{self, File};
use std::time::Duration;

#[test]
fn not_utf8() {
    let mut bytes = ROLLS.as_bytes().to_vec();
    bytes.extend(b"note caf\xe9\n");
    let bench = Bench::with("latin.miche", &bytes);
    for command in ["check", "card"] {
        bench.refuses(TROUBLE, &[command, "latin.miche"]).says(&["latin.miche", "UTF-8"]);
        let answer = bench.run_on(&[command, "-"], &bytes);
        assert_eq!(answer.code, Some(TROUBLE), "{}", answer.told());
        answer.says(&["UTF-8"]);
    }
    // The same file in UTF-16, as some editors save it.
    let wide: Vec<u8> = ROLLS.encode_utf16().flat_map(u16::to_le_bytes).collect();
    bench.write("wide.miche", [&b"\xff\xfe"[..], &wide].concat());
    bench.refuses(TROUBLE, &["card", "wide.miche"]).says(&["wide.miche", "UTF-8"]);
}

#[test]
fn an_empty_file() {
    for text in ["", "\n", "   \n\t\n", "# only a comment\n", "\u{feff}"] {
        let bench = Bench::with("empty.miche", text);
        bench.refuses(ERRORS, &["check", "empty.miche"]).says(&["empty.miche", "no-title"]);
        bench.refuses(ERRORS, &["card", "empty.miche", "-o", "empty.html"]).says(&["empty.miche"]);
    }
}

#[test]
fn a_folder_for_a_file() {
    let bench = Bench::new();
    fs::create_dir(bench.path("loaves")).expect("a folder");
    bench.refuses(TROUBLE, &["card", "loaves"]).says(&["loaves", "folder"]);
    bench.refuses(TROUBLE, &["card", "."]).says(&["folder"]);
    // `check` takes folders, but not one without a recipe.
    bench.refuses(TROUBLE, &["check", "loaves"]).says(&["loaves"]);
}

#[test]
fn no_such_file() {
    let bench = Bench::new();
    for command in ["check", "card"] {
        bench.refuses(TROUBLE, &[command, "rolls.miche"]).says(&["rolls.miche", "no such file"]);
    }
    // One good file does not make up for one that cannot be read.
    bench.write("rolls.miche", ROLLS);
    bench.refuses(TROUBLE, &["check", "rolls.miche", "rols.miche"]).says(&["rols.miche"]);
}

#[test]
fn a_hundred_megabytes() {
    let bench = Bench::new();
    let file = File::create(bench.path("large.miche")).expect("a file");
    file.set_len(100 * 1024 * 1024).expect("room");
    drop(file);
    bench.write("user.miche", ROLLS.replacen("makes 4 rolls\n", "makes 4 rolls\nuse \"large.miche\"\n", 1));
    for command in ["check", "card"] {
        let answer = bench.refuses(TROUBLE, &[command, "large.miche"]);
        answer.says(&["large.miche", "8 MiB"]);
        assert!(answer.took < Duration::from_secs(5), "{:?}", answer.took);
    }
    bench.refuses(ERRORS, &["check", "user.miche"]).says(&["missing-use", "large.miche", "8 MiB"]);
    // Standard input has no size to look at beforehand.
    let answer = bench.run_on(&["card", "-"], &vec![b'\n'; 9 * 1024 * 1024]);
    assert_eq!(answer.code, Some(TROUBLE), "{}", answer.told());
    answer.says(&["8 MiB"]);
}

#[test]
fn a_file_of_empty_lines() {
    let bench = Bench::new();
    bench.write("empty.miche", format!("{ROLLS}{}", "\n".repeat(4_000_000)));
    bench.write("user.miche", ROLLS.replacen("makes 4 rolls\n", "makes 4 rolls\nuse \"empty.miche\"\n", 1));
    for command in ["check", "card", "tidy"] {
        let answer = bench.refuses(TROUBLE, &[command, "empty.miche"]);
        answer.says(&["empty.miche", "more than 300000 lines"]);
        assert!(answer.took < Duration::from_secs(5), "{:?}", answer.took);
    }
    bench.refuses(ERRORS, &["check", "user.miche"]).says(&["missing-use", "empty.miche", "300000 lines"]);
}

#[test]
#[cfg(unix)]
fn an_endless_file_ends() {
    let bench = Bench::new();
    let answer = bench.refuses(TROUBLE, &["card", "/dev/zero"]);
    answer.says(&["device"]);
    assert!(answer.took < Duration::from_secs(10), "{:?}", answer.took);
}

#[test]
fn a_missing_use() {
    let text = rolls_with("makes 4 rolls\n", "makes 4 rolls\nuse \"bakehous.miche\"\n");
    check_finds(&text, "missing-use", 3);
    let bench = Bench::with("loaf.miche", &text);
    bench.write("bakehouse.miche", "kitchen Pier bakehouse\noven x 1\n");
    bench.refuses(ERRORS, &["check", "loaf.miche"]).says(&["bakehous.miche", "did you mean `bakehouse.miche`?"]);
    // A log may end in `.bakes`, and is offered by that name.
    bench.write("rolls.bakes", "bakes of \"loaf.miche\"\n");
    bench.refuses(TROUBLE, &["bakes", "rolls.baks"]).says(&["did you mean `rolls.bakes`?"]);
    // Its own name is none that it can mean, and no name is near for its ending alone.
    bench.write("lofe.miche", rolls_with("makes 4 rolls\n", "makes 4 rolls\nuse \"lofx.miche\"\n"));
    let answer = bench.refuses(ERRORS, &["check", "lofe.miche"]);
    answer.says(&["lofx.miche"]);
    assert!(!answer.told().contains("did you mean"), "{}", answer.told());
    for path in ["", ".", "no/such/folder.miche", "loaf.miche/in/a/file"] {
        check_finds(&rolls_with("makes 4 rolls\n", &format!("makes 4 rolls\nuse \"{path}\"\n")), "missing-use", 3);
    }
}

#[test]
fn a_use_that_leaves_the_root() {
    let outer = tempfile::tempdir().expect("a folder");
    let inner = outer.path().join("project");
    fs::create_dir_all(inner.join(".git")).expect("a root");
    fs::create_dir_all(inner.join("loaves")).expect("a folder");
    let secret = "kitchen Elsewhere\noven x 1\n";
    fs::write(outer.path().join("secret.miche"), secret).expect("a file");
    fs::write(inner.join("shared.miche"), secret).expect("a file");
    let bench = Bench { folder: outer };
    let user = |path: &str| rolls_with("makes 4 rolls\n", &format!("makes 4 rolls\nuse \"{path}\"\n"));
    let absolute = bench.path("secret.miche").display().to_string();
    for path in ["../../secret.miche", "../../project/../secret.miche", absolute.as_str()] {
        bench.write("project/loaves/rolls.miche", user(path));
        let answer = bench.refuses(ERRORS, &["check", "project/loaves/rolls.miche"]);
        answer.says(&["use-outside-root", "rolls.miche"]);
        bench.refuses(ERRORS, &["card", "project/loaves/rolls.miche"]);
    }
    bench.write("project/loaves/rolls.miche", user("../shared.miche"));
    let answer = bench.run(&["check", "project/loaves/rolls.miche"]);
    assert_eq!(answer.code, Some(FINE), "up to the root is allowed\n{}", answer.told());
    // Without a project the file's own folder is the root.
    fs::remove_dir(bench.path("project/.git")).expect("gone");
    bench.refuses(ERRORS, &["check", "project/loaves/rolls.miche"]).says(&["use-outside-root"]);
}

#[test]
#[cfg(unix)]
fn a_link_that_leaves_the_root() {
    let outside = Bench::with("secret.miche", "kitchen Elsewhere\noven x 1\n");
    let bench = Bench::with("rolls.miche", rolls_with("makes 4 rolls\n", "makes 4 rolls\nuse \"link.miche\"\n"));
    std::os::unix::fs::symlink(outside.path("secret.miche"), bench.path("link.miche")).expect("a link");
    bench.refuses(ERRORS, &["check", "rolls.miche"]).says(&["use-outside-root"]);
}

#[test]
fn a_ring_of_uses() {
    let uses = |path: &str| rolls_with("makes 4 rolls\n", &format!("makes 4 rolls\nuse \"{path}\"\n"));
    let bench = Bench::with("one.miche", uses("two.miche"));
    bench.write("two.miche", uses("three.miche"));
    bench.write("three.miche", uses("one.miche"));
    bench.refuses(ERRORS, &["check", "one.miche"]).says(&["use-ring", "one.miche", "two.miche", "three.miche"]);
    bench.refuses(ERRORS, &["card", "one.miche"]).says(&["use-ring"]);
    bench.write("self.miche", uses("self.miche"));
    bench.refuses(ERRORS, &["check", "self.miche"]).says(&["use-ring", "self.miche"]);
}

#[test]
fn standard_input() {
    let bench = Bench::new();
    let card = bench.run_on(&["card", "-", "--format", "json"], ROLLS.as_bytes());
    assert_eq!(card.code, Some(FINE), "{}", card.told());
    let card: serde_json::Value = serde_json::from_str(&card.out).expect("a card");
    assert_eq!(card["recipe"], "Pier rolls");
    assert_eq!(bench.run_on(&["check", "-"], ROLLS.as_bytes()).code, Some(FINE));
    for command in ["check", "card"] {
        let answer = bench.run_on(&[command, "-"], rolls_with("400 g", "1/0 g").as_bytes());
        assert_eq!(answer.code, Some(ERRORS), "{}", answer.told());
        answer.says(&["impossible-number", "standard input"]);
        assert_eq!(bench.run_on(&[command, "-"], b"").code, Some(ERRORS), "nothing at all");
    }
}

/// What is wrong in a used file is wrong in every card that draws on it.
#[test]
fn a_used_file_with_errors() {
    let bench = Bench::new();
    let user = rolls_with("makes 4 rolls\n", "makes 4 rolls\nuse \"mother.miche\"\n");
    let user = user.replacen("instant yeast .", "mother dough .... 200 g\ninstant yeast .", 1);
    bench.write("rolls.miche", user.replacen("{water}", "{water}, {mother dough}", 1));
    bench.write("mother.miche", "recipe Mother dough\nflour .... 1 kg\nwater .... 60 %\n");
    bench.accepts(&["check", "rolls.miche"]);
    bench.accepts(&["card", "rolls.miche"]);
    for (text, check) in [
        ("recipe Mother dough\nflour .... 1/0 kg\nwater .... 60 %\n", "impossible-number"),
        ("recipe Mother dough\nflour .... 1 kg\nwater .... 60 %\nsalt 3 kg\n", "stray-line"),
        ("recipe Mother dough\nflour .... 60 %\nbran flour .... 20 %\nmakes 1 kg\n", "base-not-100"),
        ("kitchen Mother's\nmixer three\n", "stray-line"),
    ] {
        bench.write("mother.miche", text);
        bench.refuses(ERRORS, &["check", "rolls.miche"]).says(&["mother.miche"]);
        bench.refuses(ERRORS, &["card", "rolls.miche"]).says(&["mother.miche"]);
        bench.refuses(ERRORS, &["check", "mother.miche"]).says(&[check]);
    }
}

/// A link that leads nowhere is there: what is missing is what it leads to.
#[cfg(unix)]
#[test]
fn a_link_that_leads_nowhere_is_told_as_one() {
    use std::os::unix::fs::symlink;
    let bench = Bench::with("rolls.miche", ROLLS);
    symlink("gone.miche", bench.path("broken.miche")).expect("a link");
    symlink("loop.miche", bench.path("loop.miche")).expect("a link");
    for command in ["check", "card", "tidy"] {
        let answer = bench.refuses(TROUBLE, &[command, "broken.miche"]);
        answer.says(&["it is a link to `gone.miche`, and there is no such file"]);
        assert!(!answer.told().contains("did you mean"), "{}", answer.told());
        bench.refuses(TROUBLE, &[command, "loop.miche"]).says(&["it is a link that leads back to itself"]);
    }
    bench.write("uses.miche", ROLLS.replacen("makes 4 rolls\n", "makes 4 rolls\nuse \"broken.miche\"\n", 1));
    let answer = bench.refuses(ERRORS, &["check", "uses.miche"]);
    answer.says(&["it is a link to `gone.miche`"]);
    assert!(!answer.told().contains("did you mean"), "{}", answer.told());
}

/// What is not allowed is told: reading, writing over, or writing into the folder.
#[cfg(unix)]
#[test]
fn what_is_not_allowed_is_told() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::with("rolls.miche", ROLLS.replacen(" ....", "  ..", 1));
    let mode = |name: &str, mode: u32| {
        std::fs::set_permissions(bench.path(name), std::fs::Permissions::from_mode(mode)).expect("changed");
    };
    mode("rolls.miche", 0o444);
    bench.refuses(TROUBLE, &["tidy", "rolls.miche"]).says(&["writing over it is not allowed"]);
    std::fs::create_dir(bench.path("closed")).expect("a folder");
    mode("closed", 0o555);
    // Who may do everything is not stopped by rights.
    if std::fs::write(bench.path("closed/probe"), "").is_err() {
        bench
            .refuses(TROUBLE, &["card", "rolls.miche", "-o", "closed/card.md"])
            .says(&["writing into its folder is not allowed"]);
        mode("rolls.miche", 0o222);
        bench.refuses(TROUBLE, &["check", "rolls.miche"]).says(&["reading it is not allowed"]);
    }
    mode("closed", 0o755);
    bench.write("there.md", "");
    std::fs::create_dir(bench.path("folder.miche")).expect("a folder");
    bench
        .refuses(TROUBLE, &["new", "A", "--yes", "-o", "folder.miche"])
        .says(&["there is a folder of that name already"]);
}

/// A file with its ending in capitals is a file of the folder as well.
#[test]
fn an_ending_in_capitals_is_one() {
    let bench = Bench::with("UPPER.MICHE", rolls_with("400 g", "1/0 g"));
    bench.refuses(ERRORS, &["check", "."]).says(&["UPPER.MICHE", "impossible-number"]);
}

/// A command that makes something says of which file it cannot, and what that is.
#[test]
fn what_nothing_is_made_of_is_named() {
    let bench = Bench::with("rolls.miche", ROLLS);
    bench.write("kitchen.miche", "kitchen Pier\nmixer x 1\n");
    for args in [
        &["sums", "kitchen.miche"][..],
        &["list", "kitchen.miche"],
        &["cost", "kitchen.miche"],
        &["plan", "rolls.miche", "kitchen.miche"],
    ] {
        bench.refuses(TROUBLE, args).says(&["kitchen.miche: this is a kitchen", "begins with `recipe` or `day`"]);
    }
    bench
        .refuses(TROUBLE, &["book", "rolls.miche", "-o", "b.pdf"])
        .says(&["rolls.miche: this is no book", "`page \"rolls.miche\"`"]);
}

/// What lies in a folder that cannot be looked into is not known: nobody says that all is well, and no book is made without it.
#[cfg(unix)]
#[test]
fn a_closed_folder_is_told() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::with("rolls.miche", ROLLS);
    let closed = bench.path("closed");
    fs::create_dir(&closed).expect("a folder");
    bench.write("closed/more.miche", ROLLS);
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o000)).expect("allowed");
    // Whoever may do everything may also look in here.
    let may_do_everything = fs::read_dir(&closed).is_ok();
    let answers = [&["check", "."][..], &["tidy", "--check", "."], &["book", ".", "-o", "site"], &["check", "closed"]];
    let answers: Vec<_> = answers.iter().map(|arguments| bench.run(arguments)).collect();
    let site = bench.path("site").exists();
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o755)).expect("allowed");
    if !may_do_everything {
        for answer in answers {
            assert_eq!(answer.code, Some(TROUBLE), "{}", answer.told());
            answer.says(&["closed", "reading it is not allowed"]);
        }
        assert!(!site, "a book was made without it");
    }
}
