//! The problems of `tests/data/plan-reference.json`, as `tests/scripts/plan_reference.py` writes them.

#![allow(dead_code, reason = "each test binary uses a part of it")]

use miche::plan::problem::{
    Due, Edge, Equipment, Holding, Kind, Label, Lag, Person, Point, Problem, Rule, Shift, Stand, Standing, Task, Window,
};
use serde_json::Value;

/// Every problem of the file, and what the reference solver found of it.
pub fn all() -> Vec<(Problem, Value)> {
    let all: Value = serde_json::from_str(include_str!("../data/plan-reference.json")).unwrap();
    list(&all["instances"]).iter().map(|one| (problem(&one["problem"]), one["reference"].clone())).collect()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn number(value: &Value) -> i64 {
    value.as_i64().unwrap()
}

fn small<T: TryFrom<i64>>(value: &Value) -> T {
    T::try_from(number(value)).ok().unwrap()
}

/// Reads a problem as the script writes it.
fn problem(value: &Value) -> Problem {
    let tasks = list(&value["tasks"]).iter().map(|task| Task {
        label: Label { recipe: small(&task[0]), part: small(&task[1]), step: small(&task[2]), load: small(&task[3]) },
        kind: match task[4].as_str() {
            Some("hands") => Kind::Hands,
            Some("tend") => Kind::Tend,
            _ => Kind::Wait,
        },
        shortest: number(&task[5]),
        longest: number(&task[6]),
        cooks: small(&task[7]),
        holds: task[8].as_i64().map(|_| Holding {
            equipment: small(&task[8]),
            setting: task[9].as_i64().map(|_| small(&task[9])),
            leaves: task[9].as_i64().map(|_| small(&task[if task[11].is_null() { 9 } else { 11 }])),
            size: number(&task[10]),
            dish: None,
        }),
    });
    let edge = |value: &Value| if number(value) == 0 { Edge::Start } else { Edge::End };
    let lags = list(&value["lags"]).iter().map(|lag| Lag {
        from: Point { task: small(&lag[0]), edge: edge(&lag[1]) },
        to: Point { task: small(&lag[2]), edge: edge(&lag[3]) },
        least: number(&lag[4]),
        most: lag[5].as_i64(),
        rule: match lag[6].as_str() {
            Some("straight after") => Rule::StraightAfter,
            Some("within") => Rule::Within,
            Some("during") => Rule::During,
            Some("keeps") => Rule::Keeps,
            Some("into") => Rule::Into,
            _ => Rule::After,
        },
    });
    let equipment = list(&value["equipment"]).iter().map(|equipment| Equipment {
        count: small(&equipment["count"]),
        shared: equipment["shared"].as_i64(),
        tolerance: small(&equipment["tolerance"]),
        heating: number(&equipment["heating"]),
    });
    let people = list(&value["people"]).iter().map(|person| Person {
        shifts: list(&person["shifts"])
            .iter()
            .map(|shift| Shift {
                window: Window { opens: number(&shift[0]), closes: number(&shift[1]) },
                rest: number(&shift[2]),
            })
            .collect(),
        longest: number(&person["longest"]),
        away: number(&person["away"]),
        nights: list(&person["nights"])
            .iter()
            .map(|night| Window { opens: number(&night[0]), closes: number(&night[1]) })
            .collect(),
    });
    let dues = list(&value["dues"])
        .iter()
        .map(|due| Due { tasks: list(&due[0]).iter().map(small).collect(), minute: number(&due[1]) });
    let open = list(&value["open"]).iter().map(|open| Window { opens: number(&open[0]), closes: number(&open[1]) });
    let stand = |stand: &Value| match stand[0].as_str() {
        Some("between") => Stand::Between { made: small(&stand[1]), used: small(&stand[2]) },
        Some("drawn out") => Stand::DrawnOut { rest: small(&stand[1]) },
        _ => Stand::Ready { made: small(&stand[1]), due: small(&stand[2]) },
    };
    let standing = list(&value["standing"]).iter();
    let standing =
        standing.map(|one| Standing { stand: stand(one), weight: small(&one[3]), free: one[4].as_i64().unwrap_or(0) });
    Problem {
        tasks: tasks.collect(),
        lags: lags.collect(),
        equipment: equipment.collect(),
        cooks: small(&value["cooks"]),
        people: people.collect(),
        open: open.collect(),
        earliest: value["earliest"].as_i64(),
        dues: dues.collect(),
        standing: standing.collect(),
        long: list(&value["long"]).iter().map(stand).collect(),
        stale: list(&value["stale"]).iter().map(stand).collect(),
        again: value["again"].as_bool().unwrap_or(false),
        begun: value["begun"].as_bool().unwrap_or(false),
        pause: number(&value["pause"]),
        unbroken: Vec::new(),
        heated: Vec::new(),
        warm: Vec::new(),
    }
}

/// Every small day of `tests/data/plan-days.json`, and what the reference solver found of it.
pub fn days() -> Vec<(Problem, Value)> {
    let all: Value = serde_json::from_str(include_str!("../data/plan-days.json")).unwrap();
    list(&all["instances"]).iter().map(|one| (problem(&one["problem"]), one["reference"].clone())).collect()
}

fn written_stand(stand: Stand, weight: u32, free: i64) -> Value {
    use serde_json::json;
    match stand {
        Stand::Between { made, used } => json!(["between", made, used, weight, free]),
        Stand::DrawnOut { rest } => json!(["drawn out", rest, null, weight, free]),
        Stand::Ready { made, due } => json!(["ready", made, due, weight, free]),
    }
}

/// Writes a problem as the script reads it.
pub fn written(problem: &Problem) -> Value {
    use serde_json::json;
    let tasks = problem.tasks.iter().map(|task| {
        let kind = match task.kind {
            Kind::Hands => "hands",
            Kind::Tend => "tend",
            Kind::Wait => "wait",
        };
        let Label { recipe, part, step, load } = task.label;
        json!([
            recipe,
            part,
            step,
            load,
            kind,
            task.shortest,
            task.longest,
            task.cooks,
            task.holds.map(|holds| holds.equipment),
            task.holds.and_then(|holds| holds.setting),
            task.holds.map_or(1, |holds| holds.size),
            task.holds.and_then(|holds| holds.leaves),
        ])
    });
    let edge = |edge: Edge| usize::from(edge == Edge::End);
    let lags = problem.lags.iter().map(|lag| {
        let rule = if lag.rule == Rule::Into { "into" } else { "after" };
        json!([lag.from.task, edge(lag.from.edge), lag.to.task, edge(lag.to.edge), lag.least, lag.most, rule])
    });
    let equipment = problem.equipment.iter().map(
        |one| json!({ "count": one.count, "shared": one.shared, "tolerance": one.tolerance, "heating": one.heating }),
    );
    let standing =
        problem.standing.iter().map(|standing| written_stand(standing.stand, standing.weight, standing.free));
    let people = problem.people.iter().map(|person| {
        let shifts = person.shifts.iter().map(|shift| json!([shift.window.opens, shift.window.closes, shift.rest]));
        let nights: Vec<Value> = person.nights.iter().map(|night| json!([night.opens, night.closes])).collect();
        json!({ "shifts": shifts.collect::<Vec<_>>(), "longest": person.longest, "away": person.away, "nights": nights })
    });
    json!({
        "tasks": tasks.collect::<Vec<_>>(),
        "lags": lags.collect::<Vec<_>>(),
        "equipment": equipment.collect::<Vec<_>>(),
        "cooks": problem.cooks,
        "people": people.collect::<Vec<_>>(),
        "pause": problem.pause,
        "dues": problem.dues.iter().map(|due| json!([due.tasks, due.minute])).collect::<Vec<_>>(),
        "earliest": problem.earliest,
        "open": problem.open.iter().map(|open| json!([open.opens, open.closes])).collect::<Vec<_>>(),
        "standing": standing.collect::<Vec<_>>(),
        "long": problem.long.iter().map(|stand| written_stand(*stand, 1, 0)).collect::<Vec<_>>(),
        "stale": problem.stale.iter().map(|stand| written_stand(*stand, 1, 0)).collect::<Vec<_>>(),
        "again": problem.again,
        "begun": problem.begun,
    })
}
