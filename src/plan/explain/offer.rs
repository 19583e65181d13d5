//! A way out that is offered: what to change, in a sentence with its figures, the least of them that are enough.

use super::mend::{Mend, Says};
use super::{Case, time};
use crate::model::cold::is_cold;
use crate::model::step::StepRef;
use crate::plan::problem::Minute;
use crate::plan::tasks::Task;
use crate::text::source::Span;

/// By so many minutes more each, one after the other, lengths are tried of which the first guess was not enough.
const MORE: [Minute; 3] = [0, 120, 1440];

/// A rest in the cold that would have to go on for more times as long as it may is offered only where nothing else helps: a levain of a
/// day is sour. Common practice, no source.
const MOST_TIMES: Minute = 3;

/// The same of a rest in the warm, in halves: rolls that prove twice as long collapse, and half as long again is what a dough bears that
/// waits for the last of several loads. Common practice, no source.
const MOST_HALVES: Minute = 3;

/// So many times as long as it bears ruins a rest. Common practice, no source.
const FAR_TOO_LONG: Minute = 2;

/// A way out of what is impossible: some changes that are enough together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Offer(Vec<Term>);

/// One change, and how it is said.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Term {
    /// As it stands.
    Said(String, Vec<Mend>),
    /// A limit that becomes so long.
    Length(Length),
}

/// What becomes longer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Limited {
    /// A rest goes on, by its line; `true` where it may do so already.
    UpTo(Span, bool),
    /// A rest goes on until somebody is there.
    UntilSomebody(Span),
    /// What a step finishes keeps, by the line of `keeps`.
    Keeps(Span),
    /// What a step made stands, by its line.
    Stands(Span),
    /// What is done at a moment comes later, by its line.
    Moment(Span),
    /// A step comes after another of that name, both by their lines.
    Within(Span, Span, String),
    /// The same, of what came straight after it.
    StraightAfter(Span, Span, String),
    /// A step lasts longer, by its line.
    Lasts(Span),
    /// A step is done sooner within another, by its line.
    MomentsSooner(Span),
    /// An order, or every one, is wanted later; what the clock says then, counted from that minute.
    Later(Option<usize>, Option<Minute>),
    /// Work begins sooner than at that minute.
    Sooner(Minute),
}

/// A limit and how long it becomes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Length {
    /// What is limited.
    pub(super) limited: Limited,
    /// What it is called: the step, in quotation marks.
    pub(super) name: String,
    /// The step, by its batch, where it is one that goes on, and for how long it can be let.
    pub(super) step: Option<(usize, StepRef, Minute)>,
    /// How long it is now.
    pub(super) now: Minute,
    /// How long it becomes.
    pub(super) minutes: Minute,
}

/// How long a rest in the warm bears to go on that may for so long.
pub(super) fn bears_in_the_warm(most: Minute) -> Minute {
    MOST_HALVES * most / 2
}

impl Length {
    /// A rest that goes on for so long.
    pub(super) fn up_to(rest: &Task, name: String, minutes: Minute) -> Length {
        let now = rest.most_minutes.unwrap_or(rest.minutes);
        let is_cold = rest.temperature.is_some_and(is_cold);
        let bears = if is_cold { MOST_TIMES * now } else { bears_in_the_warm(now) };
        Length {
            limited: Limited::UpTo(rest.span, rest.most_minutes.is_some()),
            name,
            step: Some((rest.batch, rest.step, bears)),
            now,
            minutes,
        }
    }

    /// Whether it is a rest that would go on for longer than what rests bears.
    fn is_overdone(&self) -> bool {
        self.step.is_some_and(|(_, _, bears)| self.minutes > bears)
    }

    fn mend(&self) -> Mend {
        let minutes = self.minutes;
        match &self.limited {
            Limited::UpTo(at, _) | Limited::UntilSomebody(at) => Mend::Step(*at, Says::UpTo(minutes)),
            Limited::Keeps(at) => Mend::Keeps(*at, minutes),
            Limited::Stands(at) | Limited::Moment(at) => Mend::Step(*at, Says::MayStand(minutes)),
            Limited::Within(at, other, _) | Limited::StraightAfter(at, other, _) => {
                Mend::Step(*at, Says::Within(*other, minutes))
            }
            Limited::Lasts(at) => Mend::Step(*at, Says::Lasts(minutes)),
            Limited::MomentsSooner(at) => Mend::Step(*at, Says::MomentsSooner(minutes)),
            Limited::Later(order, _) => Mend::Later(*order, minutes),
            Limited::Sooner(_) => Mend::Sooner(minutes),
        }
    }

    fn said(&self, case: &Case<'_>) -> String {
        let (name, whole, more) = (&self.name, time(self.minutes), time(self.minutes - self.now));
        let at = |minute: Minute| case.wall(minute).map(|at| format!(", at {at}")).unwrap_or_default();
        let said = match &self.limited {
            Limited::UpTo(_, true) => format!("let {name} go on {more} longer: `up to {whole}`"),
            Limited::UpTo(_, false) => format!("let {name} go on: `up to {whole}`"),
            Limited::UntilSomebody(_) => format!("let {name} go on until somebody is there: `up to {whole}`"),
            Limited::Keeps(_) => format!("let what {name} finishes keep {more} longer (`keeps {whole}`)"),
            Limited::Stands(_) => format!("let what {name} made wait: `may stand {whole}` on it"),
            Limited::Moment(_) => format!("let {name} come later: `may stand {whole}` on it"),
            Limited::Within(_, _, first) => format!("leave more time between {first} and {name}: `within {whole}`"),
            Limited::StraightAfter(_, _, first) => {
                format!("leave time between {first} and {name}: take `straight after` out, or write `within {whole}`")
            }
            Limited::Lasts(_) => format!("let {name} last {whole} longer"),
            Limited::MomentsSooner(_) => format!("do {name} {whole} sooner"),
            Limited::Later(_, due) => {
                let at = due.map(|due| at(due + self.minutes)).unwrap_or_default();
                if name.is_empty() {
                    format!("be ready {whole} later{at}")
                } else {
                    format!("want {name} {whole} later{at}")
                }
            }
            Limited::Sooner(earliest) => format!("begin {whole} sooner{}", at(earliest - self.minutes)),
        };
        if self.is_overdone() { format!("{said}, which makes another dough of it") } else { said }
    }
}

impl Offer {
    /// Something that is said as it stands.
    pub(super) fn said_so(said: String, mends: Vec<Mend>) -> Offer {
        Offer(vec![Term::Said(said, mends)])
    }

    /// A limit that becomes longer.
    pub(super) fn length(length: Length) -> Offer {
        Offer(vec![Term::Length(length)])
    }

    /// This and another one together: one limit is said once, with the longer figure.
    pub(super) fn and(mut self, other: Offer) -> Offer {
        for term in other.0 {
            let known = self.0.iter_mut().find(|known| match (&**known, &term) {
                (Term::Length(one), Term::Length(other)) => one.limited == other.limited,
                (one, other) => one == other,
            });
            match (known, term) {
                (Some(Term::Length(known)), Term::Length(other)) => known.minutes = known.minutes.max(other.minutes),
                (Some(_), _) => {}
                (None, term) => self.0.push(term),
            }
        }
        self
    }

    /// What it makes longer, where that is one thing alone.
    pub(super) fn one_length(&self) -> Option<Minute> {
        match self.0.as_slice() {
            [Term::Length(length)] => Some(length.minutes),
            _ => None,
        }
    }

    /// What it does to the files.
    pub(super) fn mends(&self) -> Vec<Mend> {
        let mends = self.0.iter().flat_map(|term| match term {
            Term::Said(_, mends) => mends.clone(),
            Term::Length(length) => vec![length.mend()],
        });
        mends.collect()
    }

    /// What to change, with its figures.
    pub(super) fn said(&self, case: &Case<'_>) -> String {
        let all = self.0.iter().map(|term| match term {
            Term::Said(said, _) => said.clone(),
            Term::Length(length) => length.said(case),
        });
        all.collect::<Vec<String>>().join(", and ")
    }

    /// The step that begins it by going on longer.
    pub(super) fn lets_on(&self) -> Option<(usize, StepRef)> {
        self.0.first().and_then(|term| match term {
            Term::Length(length) => length.step.map(|(batch, step, _)| (batch, step)),
            Term::Said(..) => None,
        })
    }

    /// The same with one of its lengths changed; `None` where it has no such length.
    fn with(&self, at: usize, minutes: Minute) -> Option<Offer> {
        let mut other = self.clone();
        match other.0.get_mut(at)? {
            Term::Length(length) => length.minutes = minutes,
            Term::Said(..) => return None,
        }
        Some(other)
    }

    /// The same with all of its lengths so much longer.
    fn longer(&self, by: Minute) -> Offer {
        let mut other = self.clone();
        for term in &mut other.0 {
            if let Term::Length(length) = term {
                length.minutes += by;
            }
        }
        other
    }

    /// Whether both begin with the same change, whatever its figure.
    pub(super) fn is_of_one_kind_with(&self, other: &Offer) -> bool {
        match (self.0.first(), other.0.first()) {
            (Some(Term::Length(one)), Some(Term::Length(other))) => one.limited == other.limited,
            (one, other) => one == other,
        }
    }

    /// Whether all of another way out is in this one, so that the other alone is enough.
    fn contains(&self, other: &Offer) -> bool {
        let has = |term: &Term| {
            self.0.iter().any(|own| match (own, term) {
                (Term::Length(own), Term::Length(term)) => own.limited == term.limited && own.minutes >= term.minutes,
                (own, term) => own == term,
            })
        };
        other.0.iter().all(has)
    }

    /// Whether a rest would go on for more times as long than it bears.
    pub(super) fn overdoes_a_rest(&self) -> bool {
        self.0.iter().any(|term| match term {
            Term::Length(length) => length.is_overdone(),
            Term::Said(..) => false,
        })
    }

    /// Whether a rest would go on for far longer than it bears: that is the night in which nobody is there, and no mend.
    pub(super) fn ruins_a_rest(&self) -> bool {
        self.0.iter().any(|term| match term {
            Term::Length(length) => length.step.is_some_and(|(_, _, bears)| length.minutes > FAR_TOO_LONG * bears),
            Term::Said(..) => false,
        })
    }

    fn has_lengths(&self) -> bool {
        self.0.iter().any(|term| matches!(term, Term::Length(_)))
    }
}

impl Case<'_> {
    /// The offer with the least figures that are enough, or as few more as a little search shows; `None` where it is not enough.
    pub(super) fn proven(&self, offer: Offer) -> Option<Offer> {
        let more = if offer.has_lengths() { &MORE[..] } else { &MORE[..1] };
        let mut offer = more.iter().map(|by| offer.longer(*by)).find(|longer| self.holds(&longer.mends()))?;
        for at in 0..offer.0.len() {
            let Some(Term::Length(length)) = offer.0.get(at) else { continue };
            let (mut low, mut high) = (length.now, length.minutes);
            // The first guess is mostly the least already.
            let mut middle = high - 1;
            while high - low > 1 {
                let Some(shorter) = offer.with(at, middle) else { break };
                if self.holds_quickly(&shorter.mends()) {
                    high = middle
                } else {
                    low = middle
                }
                middle = low + (high - low) / 2;
            }
            offer = offer.with(at, high).unwrap_or(offer);
        }
        Some(offer)
    }

    /// All of them in a sentence.
    pub(super) fn sentence(&self, offers: &[Offer]) -> String {
        let said = offers.iter().map(|offer| {
            let said = offer.said(self);
            // Where nothing else helps, what it costs is said with it.
            let too_soon = if self.fresh { None } else { self.too_soon(&offer.mends()) };
            match too_soon {
                Some(by) => format!("{said} (then it is ready {} before it is wanted)", time(by)),
                None => said,
            }
        });
        said.collect::<Vec<String>>().join("; or ")
    }
}

/// Of several lengths that are offered for one rest the first: one thing gives way. What stands there twice is said once, and what has more
/// in it than another that is enough is not said.
pub(super) fn one_length_each(offers: &mut Vec<Offer>) {
    let mut kept: Vec<Offer> = Vec::with_capacity(offers.len());
    for offer in offers.drain(..) {
        let is_length_again = |known: &Offer| offer.lets_on().is_some() && offer.lets_on() == known.lets_on();
        if !kept.iter().any(|known| *known == offer || is_length_again(known)) {
            kept.push(offer);
        }
    }
    let whole = kept.clone();
    let is_more = |offer: &Offer| whole.iter().any(|other| other != offer && offer.contains(other));
    kept.retain(|offer| !is_more(offer));
    *offers = kept;
}

/// Of ways out that change the files alike, in other words, the first.
pub(super) fn one_change_each(offers: &mut Vec<Offer>) {
    let mut known: Vec<Vec<Mend>> = Vec::new();
    offers.retain(|offer| {
        let mends = offer.mends();
        let is_new = mends.is_empty() || !known.contains(&mends);
        known.push(mends);
        is_new
    });
}

/// Leaves out the rests that would be overdone, where something else helps, and those that would be ruined, where making less does.
pub(super) fn within_reason(offers: &mut Vec<Offer>, less: &[Offer]) {
    if !less.is_empty() {
        offers.retain(|offer| !offer.ruins_a_rest());
    }
    if offers.iter().any(|offer| !offer.overdoes_a_rest()) {
        offers.retain(|offer| !offer.overdoes_a_rest());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::recipe::PartId;
    use crate::text::source::SourceId;

    #[test]
    fn one_rest_gets_one_length_however_it_is_said() {
        let at = Span::new(SourceId(0), 0, 0);
        let of = |step: usize, limited: Limited| {
            let step = Some((0, StepRef { part: PartId(0), step }, 30));
            Offer::length(Length { limited, name: String::new(), step, now: 0, minutes: 10 })
        };
        let more = || Offer::said_so("add another: `oven x 2`".to_owned(), Vec::new());
        let (rest, again) = (of(1, Limited::UpTo(at, false)), of(1, Limited::UntilSomebody(at)));
        let mut offers = vec![rest.clone(), more(), again, of(2, Limited::UpTo(at, true)), more()];
        one_length_each(&mut offers);
        assert_eq!(offers, [rest, more(), of(2, Limited::UpTo(at, true))]);
    }
}
