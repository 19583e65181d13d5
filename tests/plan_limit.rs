//! The time limit of planning is kept, whatever the planner is busy with: building a first plan, searching, or saying why
//! there is none; and a card does not wait for its times.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use std::path::Path;
use std::process::{Command, Output};
use std::time::{Duration, Instant};

/// What all the rest of a run may take here, where nothing is optimised and the machine is busy.
const REST: Duration = Duration::from_secs(15);

fn run(arguments: &[&str]) -> (Output, Duration) {
    let clock = Instant::now();
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")))
        .args(arguments)
        .output()
        .expect("it runs");
    (output, clock.elapsed())
}

#[test]
fn a_limit_is_kept_whatever_is_planned() {
    for arguments in [
        &["plan", "examples/yellow-pea-pot.miche", "--times", "30", "--limit", "1s"][..],
        &["plan", "examples/yellow-pea-pot.miche", "--pieces", "2000000", "--limit", "1s"],
        &["plan", "examples/yellow-pea-pot.miche", "--times", "30", "--limit", "1s", "--ready", "2027-04-17 12:00"],
        &["plan", "examples/harbour-rolls.miche", "--times", "50", "--limit", "1s"],
    ] {
        let (output, took) = run(arguments);
        assert!(took < REST, "{arguments:?} took {took:?}");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.status.code().is_some_and(|code| code < 2), "{arguments:?}: {said}");
        assert!(output.status.success() || said.contains("no-plan"), "{arguments:?}: {said}");
    }
}

/// A search that its steps ended is the same everywhere, one that the clock ended is not, and says so.
#[test]
fn a_plan_says_where_the_clock_ended_the_search() {
    let plan = |limit: &str| {
        let (output, took) =
            run(&["plan", "examples/fleet-in.miche", "--zone", "UTC", "--limit", limit, "--format", "json"]);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        (serde_json::from_slice::<serde_json::Value>(&output.stdout).expect("it is JSON"), took)
    };
    let (by_steps, _) = plan("100 steps");
    assert_eq!(by_steps.get("cut_by_clock"), None);
    let (by_time, took) = plan("6s");
    let is_cut = by_time.get("cut_by_clock").is_some_and(|cut| cut == true);
    assert!(is_cut || took < Duration::from_secs(6) || by_time["quietest"] == true, "{took:?}");
}

#[test]
fn a_card_does_not_wait_for_its_times() {
    let (output, plain) = run(&["card", "examples/yellow-pea-pot.miche"]);
    assert!(output.status.success());
    let (output, large) = run(&["card", "examples/yellow-pea-pot.miche", "--times", "1000"]);
    assert!(output.status.success());
    assert!(large < 5 * plain + Duration::from_secs(4), "{large:?} instead of {plain:?}");
}
