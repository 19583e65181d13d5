//! Events as the solver's variables.

use super::super::dense::Dense;
use super::super::network::LONG_AGO;
use super::super::problem::Minute;
use super::super::standard_form::StandardForm;
use super::closure::Closure;
use pumpkin_constraints::less_than_or_equals;
use pumpkin_core::Solver;
use pumpkin_core::proof::ConstraintTag;
use pumpkin_core::variables::{AffineView, DomainId, Literal, TransformableVariable};

/// A variable of the solver that comes a fixed time after another.
pub type View = AffineView<DomainId>;

/// The events of a model as variables, one for all that hang together rigidly.
#[derive(Debug)]
pub struct Events {
    /// For each event, the event whose variable it shares and how much later it comes.
    rigid: Dense<(usize, Minute)>,
    /// For each event, the variable it shares.
    variables: Dense<DomainId>,
    /// What the solver was told: pairs of roots, the least time between them, and the decision it depends on.
    told: Vec<(usize, usize, Minute, Option<Literal>)>,
    /// What follows from the arcs.
    pub closure: Closure,
}

/// A number of minutes as the solver takes it; the engine made sure that all of them fit.
pub fn small(minutes: Minute) -> i32 {
    i32::try_from(minutes).unwrap_or(if minutes < 0 { i32::MIN / 4 } else { i32::MAX / 4 })
}

impl Events {
    /// Makes the variables and tells the solver of the arcs between them.
    pub fn new(model: &StandardForm, closure: Closure, solver: &mut Solver, tag: ConstraintTag) -> Events {
        let rigid = closure.rigid();
        let mut made: std::collections::BTreeMap<usize, DomainId> = std::collections::BTreeMap::new();
        let mut variable = |event: usize| {
            let (first, last) = (small(closure.earliest(event)), small(closure.latest(event)));
            *made.entry(event).or_insert_with(|| solver.new_bounded_integer(first, last))
        };
        let variables = rigid.iter().map(|(first, _)| variable(*first)).collect();
        let mut events = Events { rigid, variables, told: Vec::new(), closure };
        events.bind(model, solver, tag);
        events
    }

    /// The variables themselves, without those that can no longer change.
    pub fn free(&self) -> Vec<(usize, DomainId)> {
        (0..self.rigid.len())
            .filter(|event| self.root(*event) == *event)
            .filter(|event| self.closure.earliest(*event) < self.closure.latest(*event))
            .map(|event| (event, self.variables[event]))
            .collect()
    }

    /// The variable behind an event, and how much later the event comes.
    pub fn view(&self, event: usize) -> View {
        self.variables[event].offset(small(self.rigid[event].1))
    }

    /// What the solver was told of least times between events: pairs of roots, the time, and the decision it depends on.
    pub fn told(&self) -> &[(usize, usize, Minute, Option<Literal>)] {
        &self.told
    }

    /// The event whose variable an event shares.
    pub fn root(&self, event: usize) -> usize {
        self.rigid[event].0
    }

    /// Tells the solver that `to` comes at least `by` after `from`, when `then` holds or always.
    pub fn apart(
        &mut self,
        solver: &mut Solver,
        tag: ConstraintTag,
        pair: (usize, usize),
        by: Minute,
        then: Option<Literal>,
    ) {
        let (from, to) = (self.rigid[pair.0], self.rigid[pair.1]);
        self.told.push((from.0, to.0, by + from.1 - to.1, then));
        let terms = [self.view(pair.0).scaled(1), self.view(pair.1).scaled(-1)];
        let poster = solver.add_constraint(less_than_or_equals(terms.to_vec(), small(-by), tag));
        match then {
            Some(literal) => poster.implied_by(literal),
            None => poster.post(),
        }
    }

    fn bind(&mut self, model: &StandardForm, solver: &mut Solver, tag: ConstraintTag) {
        let mut strongest: std::collections::BTreeMap<(usize, usize), Minute> = std::collections::BTreeMap::new();
        let zero = self.root(model.zero());
        for arc in model.network.arcs() {
            let ((from, later), (to, later_to)) = (self.rigid[arc.from], self.rigid[arc.to]);
            if from == to || from == zero || to == zero {
                continue;
            }
            let by = arc.by + later - later_to;
            let strongest = strongest.entry((from, to)).or_insert(by);
            *strongest = by.max(*strongest);
        }
        let roots: Vec<usize> = (0..self.rigid.len()).filter(|event| self.root(*event) == *event).collect();
        for ((from, to), by) in strongest {
            let follows = roots.iter().filter(|other| ![from, to].contains(other)).any(|other| {
                let (one, two) = (self.closure.least(from, *other), self.closure.least(*other, to));
                one != LONG_AGO && two != LONG_AGO && one + two >= by
            });
            if !follows {
                self.apart(solver, tag, (from, to), by, None);
            }
        }
    }
}
