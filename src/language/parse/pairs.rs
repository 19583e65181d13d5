//! A line as its grammar reads it: which rule stands where, and what within it. Made by pest, or by `plain` where a line is plain.

use super::Rule;
use pest::iterators::Pair as PestPair;

/// A rule that matched, at its place in the file; what stands within it follows it in the list.
#[derive(Debug, Clone, Copy)]
struct Node {
    rule: Rule,
    start: u32,
    end: u32,
    /// How many nodes stand within it, at whatever depth.
    within: u32,
}

/// Room for what is read, so that it is not asked for anew with every line.
#[derive(Debug, Default)]
pub(super) struct Room(Vec<Node>);

/// All that was read in one stretch of a text.
#[derive(Debug)]
pub(super) struct Sheet<'t> {
    text: &'t str,
    nodes: Vec<Node>,
}

impl<'t> Sheet<'t> {
    /// Of a file in which nothing was read yet.
    pub(super) fn new(text: &'t str, room: Room) -> Sheet<'t> {
        Sheet { text, nodes: room.0 }
    }

    /// Gives up what was read, and keeps its room.
    pub(super) fn into_room(mut self) -> Room {
        self.nodes.clear();
        Room(self.nodes)
    }

    /// Begins a rule; what is put down until it is closed stands within it.
    pub(super) fn open(&mut self, rule: Rule, start: usize) -> usize {
        let at = self.nodes.len();
        self.leaf(rule, start, start);
        at
    }

    /// Ends a rule that was begun.
    pub(super) fn close(&mut self, opened: usize, end: usize) {
        let within = self.nodes.len().saturating_sub(opened + 1);
        if let Some(node) = self.nodes.get_mut(opened) {
            (node.end, node.within) = (place(end), place(within));
        }
    }

    /// A rule with nothing within it.
    pub(super) fn leaf(&mut self, rule: Rule, start: usize, end: usize) {
        self.nodes.push(Node { rule, start: place(start), end: place(end), within: 0 });
    }

    /// Whether something stands within a rule that was begun.
    pub(super) fn holds(&self, opened: usize) -> bool {
        self.nodes.len() > opened + 1
    }

    /// Takes a rule that was begun back, with all that stands within it.
    pub(super) fn back_to(&mut self, opened: usize) {
        self.nodes.truncate(opened);
    }

    /// Takes everything back.
    pub(super) fn clear(&mut self) {
        self.nodes.clear();
    }

    /// What pest read of a stretch that begins at a place of the file.
    pub(super) fn take(&mut self, pair: PestPair<'_, Rule>, base: usize) {
        if pair.as_rule() == Rule::EOI {
            return;
        }
        let span = pair.as_span();
        let opened = self.open(pair.as_rule(), base + span.start());
        pair.into_inner().for_each(|inner| self.take(inner, base));
        self.close(opened, base + span.end());
    }

    /// The first rule or place in which two readings of one stretch differ. Blanks behind a rule belong to it or do not, except
    /// where they are a part of what is said.
    pub(super) fn difference(&self, other: &Sheet<'_>) -> Option<String> {
        let said = |node: &Node| {
            let text = self.text.get(node.start as usize..node.end as usize).unwrap_or("");
            let whole = matches!(node.rule, Rule::plain | Rule::inside | Rule::text | Rule::preparation);
            let end = if whole { text.len() } else { text.trim_end().len() };
            (node.rule, node.start, end, node.within)
        };
        let ours = self.nodes.iter().map(said);
        let theirs = other.nodes.iter().map(said);
        let count = self.nodes.len() == other.nodes.len();
        let differs = ours.zip(theirs).find(|(ours, theirs)| ours != theirs);
        differs.map(|both| format!("{both:?}")).or_else(|| (!count).then(|| format!("{self:?} {other:?}")))
    }

    /// Everything, in its order.
    pub(super) fn pairs(&self) -> Pairs<'_> {
        Pairs { text: self.text, rest: &self.nodes }
    }

    /// What stands before the condition of a line, and the condition, which is always the last.
    pub(super) fn before_condition(&self) -> (Pairs<'_>, Option<Pair<'_>>) {
        let mut rest = self.pairs();
        loop {
            let before = self.nodes.len() - rest.rest.len();
            match rest.next() {
                Some(pair) if pair.as_rule() == Rule::condition => {
                    let rest = self.nodes.get(..before).unwrap_or_default();
                    return (Pairs { text: self.text, rest }, Some(pair));
                }
                Some(_) => {}
                None => return (self.pairs(), None),
            }
        }
    }
}

/// Places in a file are kept in four bytes, as in [`Span`](crate::text::source::Span); longer files are not read.
fn place(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}

/// A rule that matched, and what stands within it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pair<'p> {
    text: &'p str,
    node: &'p Node,
    within: &'p [Node],
}

impl<'p> Pair<'p> {
    /// Which rule.
    pub(super) fn as_rule(&self) -> Rule {
        self.node.rule
    }

    /// Where it begins and ends in the file.
    pub(super) fn places(&self) -> (u32, u32) {
        (self.node.start, self.node.end)
    }

    /// What it matched; blanks behind it may belong to it.
    pub(super) fn as_str(&self) -> &'p str {
        self.text.get(self.node.start as usize..self.node.end as usize).unwrap_or("")
    }

    /// What stands directly within it.
    pub(super) fn into_inner(self) -> Pairs<'p> {
        Pairs { text: self.text, rest: self.within }
    }
}

/// Rules that matched, one behind the other.
#[derive(Debug, Clone)]
pub(super) struct Pairs<'p> {
    text: &'p str,
    rest: &'p [Node],
}

impl<'p> Iterator for Pairs<'p> {
    type Item = Pair<'p>;

    fn next(&mut self) -> Option<Pair<'p>> {
        let (node, rest) = self.rest.split_first()?;
        let (within, rest) = rest.split_at_checked(node.within as usize)?;
        self.rest = rest;
        Some(Pair { text: self.text, node, within })
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        let (mut count, mut rest) = (0, self.rest);
        while let Some((node, behind)) = rest.split_first() {
            count += 1;
            rest = behind.get(node.within as usize..).unwrap_or_default();
        }
        (count, Some(count))
    }
}
