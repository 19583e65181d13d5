//! In which order the solver decides.

use pumpkin_core::branching::branchers::autonomous_search::AutonomousSearch;
use pumpkin_core::branching::{Brancher, BrancherEvent, SelectionContext};
use pumpkin_core::predicate;
use pumpkin_core::predicates::Predicate;
use pumpkin_core::results::SolutionReference;
use pumpkin_core::variables::DomainId;
use std::cell::Cell;
use std::rc::Rc;

/// Follows a known plan until it is found again, then searches where conflicts arise, near the best plan so far.
///
/// Nothing here is drawn by lot and nothing looks at a clock, so the same problem is always searched the same way.
#[derive(Debug)]
pub struct Guide {
    /// Events and when they come in the known plan, while that is followed.
    known: Vec<(DomainId, i32)>,
    next: usize,
    search: AutonomousSearch<Soonest>,
    /// Tells the budget that something has just been decided.
    decided: Rc<Cell<bool>>,
}

impl Guide {
    /// Searches over `events` first and everything else afterwards, beginning with a known plan for them.
    pub fn new(events: Vec<DomainId>, known: Vec<(DomainId, i32)>, decided: Rc<Cell<bool>>) -> Guide {
        Guide { known, next: 0, search: AutonomousSearch::new(Soonest { events, rest: 0 }), decided }
    }

    fn follow(&mut self, context: &SelectionContext) -> Option<Predicate> {
        while let Some((event, value)) = self.known.get(self.next).copied() {
            self.next += 1;
            if !context.is_integer_fixed(event) && context.contains(event, value) {
                return Some(predicate!(event == value));
            }
        }
        None
    }
}

impl Brancher for Guide {
    fn next_decision(&mut self, context: &mut SelectionContext) -> Option<Predicate> {
        let decision = self.follow(context).or_else(|| self.search.next_decision(context));
        self.decided.set(decision.is_some());
        decision
    }

    fn on_conflict(&mut self) {
        self.search.on_conflict();
    }

    fn on_backtrack(&mut self) {
        self.decided.set(false);
        self.search.on_backtrack();
    }

    fn on_solution(&mut self, solution: SolutionReference) {
        self.known.clear();
        self.search.on_solution(solution);
    }

    fn on_unassign_integer(&mut self, variable: DomainId, value: i32) {
        self.search.on_unassign_integer(variable, value);
    }

    fn on_appearance_in_conflict_predicate(&mut self, predicate: Predicate) {
        self.search.on_appearance_in_conflict_predicate(predicate);
    }

    fn on_restart(&mut self) {
        self.search.on_restart();
    }

    fn synchronise(&mut self, context: &mut SelectionContext) {
        self.next = 0;
        self.search.synchronise(context);
    }

    fn is_restart_pointless(&mut self) -> bool {
        false
    }

    fn subscribe_to_events(&self) -> Vec<BrancherEvent> {
        vec![
            BrancherEvent::Conflict,
            BrancherEvent::Backtrack,
            BrancherEvent::Solution,
            BrancherEvent::UnassignInteger,
            BrancherEvent::AppearanceInConflictPredicate,
            BrancherEvent::Restart,
            BrancherEvent::Synchronise,
        ]
    }
}

/// Sets the event that can come first to as soon as it can come; when all events are set, everything else to its
/// least value.
#[derive(Debug)]
struct Soonest {
    events: Vec<DomainId>,
    /// Everything that was made before this number is set.
    rest: usize,
}

impl Brancher for Soonest {
    fn next_decision(&mut self, context: &mut SelectionContext) -> Option<Predicate> {
        let open = self.events.iter().filter(|event| !context.is_integer_fixed(**event));
        if let Some(event) = open.min_by_key(|event| (context.lower_bound(**event), context.upper_bound(**event))) {
            let soonest = context.lower_bound(*event);
            return Some(predicate!(event <= soonest));
        }
        let found =
            context.get_domains().enumerate().skip(self.rest).find(|(_, domain)| !context.is_integer_fixed(*domain));
        let (at, domain) = found?;
        self.rest = at;
        let least = context.lower_bound(domain);
        Some(predicate!(domain <= least))
    }

    fn synchronise(&mut self, _context: &mut SelectionContext) {
        self.rest = 0;
    }

    fn is_restart_pointless(&mut self) -> bool {
        false
    }

    fn subscribe_to_events(&self) -> Vec<BrancherEvent> {
        vec![BrancherEvent::Synchronise]
    }
}
