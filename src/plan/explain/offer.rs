//! A way out that is offered: what to change, in a sentence, and which rest that lets go on.

use crate::model::step::StepRef;
use crate::plan::tasks::Task;

/// A way out of what is impossible.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct Offer {
    /// What to change, with its figures.
    pub(super) said: String,
    /// The step that is to go on longer, by its batch, where it begins with that.
    longer: Option<(usize, StepRef)>,
}

impl Offer {
    /// That a step goes on longer.
    pub(super) fn longer(step: &Task, said: String) -> Offer {
        Offer { said, longer: Some((step.batch, step.step)) }
    }

    /// This and another one together.
    pub(super) fn and(self, other: &Offer) -> Offer {
        Offer { said: format!("{}, and {}", self.said, other.said), ..self }
    }

    /// Whether it is that a step, or a load of it, goes on longer.
    pub(super) fn lets_on(&self, step: &Task) -> bool {
        self.longer == Some((step.batch, step.step))
    }

    /// Whether another gives the same step another length.
    fn is_length_of(&self, other: &Offer) -> bool {
        self.longer.is_some() && self.longer == other.longer
    }
}

impl From<String> for Offer {
    fn from(said: String) -> Offer {
        Offer { said, longer: None }
    }
}

/// Of several lengths that are offered for one rest the first: one thing gives way.
pub(super) fn one_length_each(offers: &mut Vec<Offer>) {
    let mut kept: Vec<Offer> = Vec::with_capacity(offers.len());
    for offer in offers.drain(..) {
        if !kept.iter().any(|known| offer.is_length_of(known)) {
            kept.push(offer);
        }
    }
    *offers = kept;
}

/// All of them in a sentence.
pub(super) fn sentence(offers: &[Offer]) -> String {
    let said: Vec<&str> = offers.iter().map(|offer| offer.said.as_str()).collect();
    said.join("; or ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::recipe::PartId;

    #[test]
    fn one_rest_gets_one_length_however_it_is_said() {
        let of = |step: usize, said: &str| Offer {
            said: said.to_owned(),
            longer: Some((0, StepRef { part: PartId(0), step })),
        };
        let more = || Offer::from("add another: `oven x 2`".to_owned());
        let mut offers = vec![of(1, "let it rise"), more(), of(1, "leave it"), of(2, "let it prove"), more()];
        one_length_each(&mut offers);
        assert_eq!(
            sentence(&offers),
            "let it rise; or add another: `oven x 2`; or let it prove; or add another: `oven x 2`"
        );
    }
}
