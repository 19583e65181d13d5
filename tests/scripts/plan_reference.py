"""Random kitchen-like planning problems, solved by a general-purpose reference solver.

    python3 -m venv ve && ve/bin/pip install ortools
    ve/bin/python plan_reference.py > ../data/plan-reference.json
    PLAN_DUMP=days.json cargo test --test plan_random written
    ve/bin/python plan_reference.py --of days.json 20 > ../data/plan-days.json
    ve/bin/python plan_reference.py --lacking ../data/plan-days.json 600 > more.json

    ve/bin/python plan_reference.py --spells ../data/plan-days.json 60 > more.json

`--lacking` solves only those of which a measure is null, for longer; `--spells` keeps the first two measures and counts the spells
anew, by what is work now.

Every problem is made from its number alone, so the file can be made again. The model below is written from the words
of `src/plan/problem.rs` and shares nothing with the planner. Three solves, one for each measure, each keeping the ones
before; a measure that was not proven best within the time is null, and those after it.

Fields of a task: recipe, part, step, load, kind, shortest, longest, cooks, equipment, setting, size, and the setting at
which it leaves its unit. A person has shifts (opens, closes, rest), of which each may have one rest.
Fields of a lag: from task, from edge, to task, to edge, least, most, rule. Edges: 0 start, 1 end.
"""

import json
import random
import sys

from ortools.sat.python import cp_model

DAY = 1440
KINDS = {"hands": 0, "tend": 1, "wait": 2}


def kitchen(rng, size):
    """Equipment, cooks and hours."""
    equipment = [
        # oven
        dict(
            count=rng.choice([1, 1, 1, 2]),
            shared=rng.choice([None, None, 24]),
            tolerance=50,
            heating=rng.choice([0, 0, 15]),
        ),
        # mixer
        dict(count=1, shared=None, tolerance=50, heating=0),
        # prover
        dict(count=rng.choice([1, 2]), shared=rng.choice([None, 40]), tolerance=20, heating=0),
        # hob
        dict(count=4, shared=None, tolerance=50, heating=0),
    ]
    cooks = rng.choice([1, 1, 2, 2, 3])
    hours = rng.choice([None, (420, 1320), (270, 1050), (360, 900)])
    return equipment, cooks, hours


def instance(number):
    rng = random.Random(1000 + number)
    equipment, cooks, hours = kitchen(rng, number)
    tasks, lags, standing = [], [], []
    most_tasks = [10, 16, 24, 32, 40][number % 5]
    heats = [1800, 1900, 1930, 2200, 2400]
    finals = []
    recipe = 0

    def add(recipe, part, step, load, kind, short, long=None, people=None, machine=None, setting=None, size=1):
        people = (1 if kind == "hands" else 0) if people is None else people
        tasks.append([recipe, part, step, load, kind, short, short if long is None else long, people, machine, setting, size])
        return len(tasks) - 1

    def after(a, b, most=None, rule="after"):
        lags.append([a, 1, b, 0, 0, most, rule])

    while len(tasks) < most_tasks - 8 or recipe == 0:
        made = []
        parts = rng.randint(1, 3)
        for part in range(parts):
            last_part = part == parts - 1
            previous, step = None, 0
            chain = []
            plan = ["mix", "rise", "shape"] if rng.random() < 0.7 else ["cook", "cool"]
            if rng.random() < 0.4:
                plan.append("chill")
            if last_part:
                plan += rng.choice([["prove", "bake", "cool"], ["bake", "cool"], ["bake"]])
            for name in plan:
                loads = 1
                machine, setting, size = None, None, 1
                kind, short, long, people = "wait", 0, None, None
                if name == "mix":
                    kind, short, machine = "hands", rng.randint(6, 20), rng.choice([1, 1, None])
                elif name == "rise":
                    short = rng.randint(4, 12) * 10
                elif name == "shape":
                    kind, short = "hands", rng.randint(5, 40)
                    people = 2 if cooks >= 2 and rng.random() < 0.15 else 1
                elif name == "cook":
                    kind, short, machine = "tend", rng.randint(15, 45), 3
                    people = rng.choice([0, 1])
                elif name == "chill":
                    short = rng.choice([60, 120, 480, 600])
                    long = short + rng.choice([60, 240, 600, 1440])
                elif name == "prove":
                    short, machine = rng.randint(4, 10) * 10, rng.choice([2, 2, None])
                    setting, size = rng.choice([240, 260, 280]), rng.choice([10, 20, 30])
                    if rng.random() < 0.3:
                        long = short + 20
                elif name == "bake":
                    kind, short, machine = "tend", rng.randint(12, 45), 0
                    setting, size = rng.choice(heats), rng.choice([8, 12, 16, 24])
                    loads = rng.choice([1, 1, 2, 3])
                elif name == "cool":
                    short = rng.randint(2, 9) * 10
                    loads = len(chain) if chain else 1
                now = [
                    add(recipe, part, step, load, kind, short, long, people, machine, setting, size)
                    for load in range(loads)
                ]
                if chain:
                    pairs = list(zip(chain, now)) if len(chain) == len(now) else [(chain[-1], now[0])]
                    for a, b in pairs:
                        roll = rng.random()
                        if roll < 0.12:
                            after(a, b, 0, "straight after")
                        elif roll < 0.3:
                            after(a, b, rng.choice([5, 10, 30]), "within")
                        else:
                            after(a, b)
                        standing.append(["between", a, b, rng.choice([1, 1, 1, 3])])
                if long is not None:
                    standing += [["drawn out", task, None, 1] for task in now]
                chain = now
                step += 1
            if rng.random() < 0.15 and len(chain) == 1 and tasks[chain[0]][4] == "wait":
                inner = add(recipe, part, step, 0, "hands", rng.randint(3, 15))
                lags.append([chain[0], 0, inner, 0, 0, None, "during"])
                lags.append([inner, 1, chain[0], 1, 0, None, "during"])
            if last_part:
                first = [t for t, task in enumerate(tasks) if task[0] == recipe and task[1] == part][0]
                for end in made:
                    most = rng.choice([None, 120, 720, 2880])
                    after(end, first, most, "keeps" if most is not None else "after")
                    standing.append(["between", end, first, 1])
                finals.append((recipe, chain))
            else:
                made.append(chain[-1])
        recipe += 1
    problem = dict(tasks=tasks, lags=lags, equipment=equipment, cooks=cooks, pause=rng.choice([0, 0, 5]))
    last_day = 5
    if rng.random() < 0.75:
        dues = []
        base = last_day * DAY + (rng.randint(10, 17) * 60 if hours is None else hours[1] - rng.randint(0, 6) * 30)
        groups = [base, base - 90] if rng.random() < 0.4 else [base]
        chosen = {}
        for which, chain in finals:
            chosen.setdefault(rng.choice(groups), []).extend(chain)
        for minute, group in sorted(chosen.items()):
            for task in group:
                standing.append(["ready", task, len(dues), 1])
            dues.append([group, minute])
        problem["dues"] = dues
        problem["earliest"] = base - rng.choice([360, 540, 900]) if rng.random() < 0.2 else None
        problem["open"] = [] if hours is None else [[d * DAY + hours[0], d * DAY + hours[1]] for d in range(last_day + 1)]
    else:
        problem["dues"] = []
        problem["earliest"] = None if hours is None else hours[0]
        problem["open"] = [] if hours is None else [[d * DAY + hours[0], d * DAY + hours[1]] for d in range(last_day + 4)]
    problem["standing"] = standing
    return problem


def leaves(task):
    """The setting at which a load leaves its unit."""
    return task[11] if len(task) > 11 and task[11] is not None else task[9]


def share_out(model, problem, starts, intervals, ends, low, high):
    """Who does what: there from the first to the last minute, one thing at a time, one rest in a long shift."""
    people, tasks = problem.get("people", []), problem["tasks"]
    if not people:
        return
    work = [at for at, task in enumerate(tasks) if task[7] > 0 and task[5] > 0]
    by = {(at, who): model.new_bool_var("") for at in work for who in range(len(people))}
    for at in work:
        model.add(sum(by[at, who] for who in range(len(people))) == tasks[at][7])
    for who, person in enumerate(people):
        mine = [
            model.new_optional_interval_var(starts[at], tasks[at][5], ends[at], by[at, who], "") for at in work
        ]
        shifts = [shift for shift in person["shifts"] if shift[1] > low and shift[0] < high]
        for opens, closes, rest in shifts:
            if rest:
                # At most six hours before it and after it, and neither in the first nor in the last hour.
                first, last = max(closes - 360 - rest, opens + 60), min(opens + 360, closes - 60 - rest)
                if first > last:
                    first = last = opens + (closes - opens - rest) // 2
                begins = model.new_int_var(first, last, "")
                mine.append(model.new_fixed_size_interval_var(begins, rest, ""))
        model.add_no_overlap(mine)
        if person["shifts"]:
            in_shift = []
            for opens, closes, _ in shifts:
                first, last = model.new_int_var(opens, closes, ""), model.new_int_var(opens, closes, "")
                model.add(last - first <= person["longest"])
                in_shift.append((opens, closes, first, last))
            for at in work:
                inside = []
                for opens, closes, first, last in in_shift:
                    here = model.new_bool_var("")
                    model.add(starts[at] >= first).only_enforce_if(here)
                    model.add(ends[at] <= last).only_enforce_if(here)
                    inside.append(here)
                model.add(sum(inside) == 1).only_enforce_if(by[at, who])
        else:
            # A day begins with its first work and is followed by a time away; there are as many as could be.
            days = []
            for _ in range((high - low) // (person["away"] + 1) + 1):
                first, last = model.new_int_var(low, high, ""), model.new_int_var(low, high, "")
                model.add(last - first <= person["longest"])
                model.add(last >= first)
                if days:
                    model.add(first >= days[-1][1] + person["away"])
                days.append((first, last))
                # Days beyond the end of time are empty.
                if len(days) > 4:
                    break
            for at in work:
                inside = []
                for first, last in days:
                    here = model.new_bool_var("")
                    model.add(starts[at] >= first).only_enforce_if(here)
                    model.add(ends[at] <= last).only_enforce_if(here)
                    inside.append(here)
                model.add(sum(inside) == 1).only_enforce_if(by[at, who])


def heated_again(model, problem, starts, ends, units):
    """The minutes for which units are heated again: where a load starts right after one that leaves another heat."""
    tasks, minutes = problem["tasks"], []
    for kind, equipment in enumerate(problem["equipment"]):
        agree = lambda one, two: abs(one - two) <= equipment["tolerance"]
        loads = [at for at, task in enumerate(tasks) if task[8] == kind and task[9] is not None and task[6] > 0]
        if equipment["heating"] == 0:
            continue
        for unit in range(equipment["count"]):
            here = {at: units[at][unit] for at in loads}
            # A circle through the loads of the unit, in the order of their starts, and a place 0 where it begins and ends.
            arcs = [(0, 0, model.new_bool_var(""))]
            for at in loads:
                model.add_implication(arcs[0][2], here[at].negated())
                arcs.append((at + 1, at + 1, here[at].negated()))
                arcs.append((0, at + 1, model.new_bool_var("")))
                arcs.append((at + 1, 0, model.new_bool_var("")))
            for one in loads:
                for two in loads:
                    if one == two:
                        continue
                    follows = model.new_bool_var("")
                    arcs.append((one + 1, two + 1, follows))
                    model.add(starts[one] + (1 if one > two else 0) <= starts[two]).only_enforce_if(follows)
                    if agree(leaves(tasks[one]), tasks[two][9]):
                        continue
                    nights = []
                    for (_, closes), (opens, _) in zip(problem["open"], problem["open"][1:]):
                        if closes < opens:
                            night = model.new_bool_var("")
                            model.add(ends[one] < opens).only_enforce_if(night)
                            model.add(starts[two] > closes).only_enforce_if(night)
                            nights.append(night)
                    again = model.new_bool_var("")
                    model.add_bool_or([follows.negated(), again] + nights)
                    minutes.append(equipment["heating"] * again)
            if loads:
                model.add_circuit(arcs)
    return minutes


def build(problem):
    """The problem in the reference solver, with its three measures."""
    model = cp_model.CpModel()
    tasks, dues = problem["tasks"], problem["dues"]
    if dues:
        high = max(minute for _, minute in dues)
        low = high - 6 * DAY
        if problem["earliest"] is not None:
            low = problem["earliest"]
    else:
        low = problem["earliest"] or 0
        high = low + 8 * DAY
    if high < low:
        return None
    starts, ends, intervals = [], [], []
    for at, task in enumerate(tasks):
        # What holds a unit and may be drawn out takes a minute at least.
        if task[8] is not None and task[6] > 0:
            task[5] = max(task[5], 1)
        start = model.new_int_var(low, high, f"s{at}")
        end = model.new_int_var(low, high, f"e{at}")
        length = model.new_int_var(task[5], task[6], f"l{at}")
        starts.append(start)
        ends.append(end)
        intervals.append(model.new_interval_var(start, length, end, f"i{at}"))
        if task[4] != "wait" and problem["open"]:
            inside = []
            for opens, closes in problem["open"]:
                here = model.new_bool_var("")
                model.add(start >= opens).only_enforce_if(here)
                model.add(end <= closes).only_enforce_if(here)
                inside.append(here)
            model.add_exactly_one(inside)
    edge = lambda task, which: ends[task] if which else starts[task]
    for a, a_edge, b, b_edge, least, most, _ in problem["lags"]:
        between = edge(b, b_edge) - edge(a, a_edge)
        model.add(between >= least)
        if most is not None:
            model.add(between <= most)
    for group, minute in dues:
        for task in group:
            model.add(ends[task] <= minute)
    steps = {}
    for at, task in enumerate(tasks):
        steps.setdefault(tuple(task[:3]), []).append((task[3], at))
    for loads in steps.values():
        loads.sort()
        for (_, a), (_, b) in zip(loads, loads[1:]):
            model.add(starts[a] <= starts[b])
    at_work = [at for at, task in enumerate(tasks) if task[7] > 0]
    share_out(model, problem, starts, intervals, ends, low, high)
    model.add_cumulative([intervals[at] for at in at_work], [tasks[at][7] for at in at_work], problem["cooks"])
    all_units = {}
    for kind, equipment in enumerate(problem["equipment"]):
        holding = [at for at, task in enumerate(tasks) if task[8] == kind]
        units = {at: [model.new_bool_var("") for _ in range(equipment["count"])] for at in holding}
        all_units.update(units)
        parts = {}
        for at in holding:
            model.add_exactly_one(units[at])
            for unit in range(equipment["count"]):
                length = model.new_int_var(tasks[at][5], tasks[at][6], "")
                part = model.new_optional_interval_var(starts[at], length, ends[at], units[at][unit], "")
                parts[at, unit] = part
        takes = equipment["shared"]
        for unit in range(equipment["count"]):
            if takes is None:
                model.add_no_overlap([parts[at, unit] for at in holding])
            else:
                model.add_cumulative([parts[at, unit] for at in holding], [tasks[at][10] for at in holding], takes)
            for i, a in enumerate(holding):
                for b in holding[i + 1 :]:
                    agree = lambda one, two: one is None or two is None or abs(one - two) <= equipment["tolerance"]
                    steady = lambda at: agree(tasks[at][9], leaves(tasks[at]))
                    if agree(tasks[a][9], tasks[b][9]) and steady(a) and steady(b):
                        continue
                    order = model.new_bool_var("")
                    both = [units[a][unit], units[b][unit]]
                    heat = lambda one, two: 0 if agree(leaves(tasks[one]), tasks[two][9]) else equipment["heating"]
                    model.add(ends[a] + heat(a, b) <= starts[b]).only_enforce_if(both + [order])
                    model.add(ends[b] + heat(b, a) <= starts[a]).only_enforce_if(both + [order.negated()])
    span = model.new_int_var(0, high - low, "span")
    if dues:
        for start in starts:
            model.add(span >= high - start)
    else:
        for end in ends:
            model.add(span >= end - low)
    def wait(what, a, b, free=0):
        wait = model.new_int_var(0, 8 * DAY, "")
        if what == "between":
            model.add(wait >= starts[b] - ends[a] - free)
        elif what == "drawn out":
            model.add(wait >= ends[a] - starts[a] - tasks[a][5] - free)
        else:
            model.add(wait >= dues[b][1] - ends[a] - free)
        return wait

    waits = [weight * wait(what, a, b, *free) for what, a, b, weight, *free in problem["standing"]]
    # What is done at a moment of something else is late past it: twenty for a minute.
    for a, _, b, b_edge, least, _, rule in problem["lags"]:
        if rule == "into" and b_edge == 0:
            waits.append(20 * (starts[b] - starts[a] - least))
    standing = sum(waits) if waits else 0
    against = [wait(what, a, b, 60) for what, a, b, *_ in problem.get("long", [])]
    against += [wait(what, a, b, 240) for what, a, b, *_ in problem.get("stale", [])]
    if problem.get("again"):
        standing += 3 * sum(heated_again(model, problem, starts, ends, all_units))
    weighed = 2 * span + sum(against)
    # Who tends something only sets it going.
    begun = [at for at, task in enumerate(tasks) if task[4] == "tend" and task[6] > 0 and problem.get("begun")]
    work = [at for at, task in enumerate(tasks) if task[4] == "hands" or at in begun]
    firsts = []
    for a in work:
        reached = []
        for b in work:
            if a == b:
                continue
            here = model.new_bool_var("")
            model.add(starts[b] + (1 if b > a else 0) <= starts[a]).only_enforce_if(here)
            last = starts[b] if b in begun else ends[b]
            model.add(last + problem["pause"] >= starts[a]).only_enforce_if(here)
            reached.append(here)
        first = model.new_bool_var("")
        model.add_bool_or(reached + [first])
        firsts.append(first)
    spells = sum(firsts) if firsts else 0
    return model, starts + ends, [weighed, standing, spells]


def against_anything(problem):
    """Whether anything weighs against the span."""
    return bool(problem.get("long") or problem.get("stale"))


def solve(problem, seconds, known=()):
    """The measures, of which those that are known need not be found."""
    built = build(problem)
    if built is None:
        return dict(status="infeasible")
    model, variables, goals = built
    names = ["weighed", "standing", "spells"]
    result = dict(status="optimal", **{name: None for name in names})
    for name, goal in zip(names, goals):
        if name in known:
            result[name] = known[name]
            model.add(goal <= known[name])
            continue
        model.minimize(goal)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 2
        solver.parameters.random_seed = 1
        solver.parameters.max_time_in_seconds = seconds
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE:
            return dict(status="infeasible")
        if status != cp_model.OPTIMAL:
            if name == "weighed" and status == cp_model.UNKNOWN:
                result["status"] = "unknown"
            break
        best = round(solver.objective_value)
        result[name] = best
        if name == "weighed" and not against_anything(problem):
            result["span"] = best // 2
        model.add(goal <= best)
        model.clear_hints()
        for variable in variables:
            model.add_hint(variable, solver.value(variable))
    return result


def main():
    if sys.argv[1:2] in (["--of"], ["--lacking"], ["--spells"]):
        seconds = float(sys.argv[3]) if len(sys.argv) > 3 else 60
        with open(sys.argv[2]) as file:
            instances = json.load(file)["instances"]
        out = []
        for one in instances:
            known = one.get("reference", {})
            if sys.argv[1] == "--lacking" and (known["status"] == "infeasible" or known["spells"] is not None):
                out.append(one)
                continue
            if sys.argv[1] == "--spells":
                one["problem"]["begun"] = True
                if known["status"] == "infeasible" or known["standing"] is None:
                    out.append(one)
                    continue
                first = known["weighed"] if known.get("weighed") is not None else 2 * known["span"]
                known = dict(weighed=first, standing=known["standing"])
            else:
                known = {}
            problem = json.loads(json.dumps(one["problem"]))
            reference = solve(problem, seconds, known)
            if known:
                reference = dict(one["reference"], spells=reference["spells"])
            print(one["name"], len(problem["tasks"]), reference, file=sys.stderr, flush=True)
            out.append(dict(one, reference=reference))
        import ortools

        print(json.dumps(dict(solver=f"OR-tools CP-SAT {ortools.__version__}", instances=out), separators=(",", ":")))
        return
    first, last = (int(sys.argv[1]), int(sys.argv[2])) if len(sys.argv) > 2 else (0, 100)
    seconds = float(sys.argv[3]) if len(sys.argv) > 3 else 60
    out = []
    for number in range(first, last):
        problem = instance(number)
        reference = solve(problem, seconds)
        print(number, len(problem["tasks"]), reference, file=sys.stderr, flush=True)
        out.append(dict(name=f"kitchen {number}", problem=problem, reference=reference))
    import ortools

    print(json.dumps(dict(solver=f"OR-tools CP-SAT {ortools.__version__}", instances=out), separators=(",", ":")))


if __name__ == "__main__":
    main()
