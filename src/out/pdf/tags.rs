//! The structure of the document: what is a heading, a table, a list, for those who have it read out.

use krilla::tagging::{self, Identifier, ListNumbering, TableHeaderScope, Tag, TagGroup, TagKind, TagTree};
use std::num::NonZeroU16;

/// A node of the structure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Node(usize);

/// What a node is.
#[derive(Debug, Clone)]
pub(super) enum Role {
    Article,
    Section,
    Group,
    Heading(u16, String),
    Paragraph,
    /// A list; numbered or not.
    List(bool),
    ListItem,
    Label,
    ListBody,
    Table(String),
    TableHead,
    TableBody,
    TableFoot,
    Row,
    ColumnHead,
    RowHead,
    Cell,
    /// A picture and what it shows.
    Figure(String),
    /// The contents of a book.
    Contents,
    /// A line of them.
    ContentsItem,
    /// What leads to another page.
    Link,
}

struct Entry {
    role: Role,
    children: Vec<usize>,
    leaves: Vec<Identifier>,
}

/// The structure as it grows.
#[derive(Default)]
pub(super) struct Tags {
    entries: Vec<Entry>,
    roots: Vec<usize>,
}

impl Tags {
    /// A node under another, or at the top.
    pub(super) fn add(&mut self, parent: Option<Node>, role: Role) -> Node {
        let at = self.entries.len();
        self.entries.push(Entry { role, children: Vec::new(), leaves: Vec::new() });
        match parent.and_then(|parent| self.entries.get_mut(parent.0)) {
            Some(parent) => parent.children.push(at),
            None => self.roots.push(at),
        }
        Node(at)
    }

    /// Notes what was drawn for a node.
    pub(super) fn drawn(&mut self, node: Node, what: Identifier) {
        if let Some(entry) = self.entries.get_mut(node.0) {
            entry.leaves.push(what);
        }
    }

    /// The finished tree.
    pub(super) fn finish(mut self) -> TagTree {
        let mut tree = TagTree::new().with_lang(Some("en".to_owned()));
        for root in std::mem::take(&mut self.roots) {
            if let Some(group) = self.group(root) {
                tree.push(group);
            }
        }
        tree
    }

    fn group(&mut self, at: usize) -> Option<TagGroup> {
        let entry = self.entries.get_mut(at)?;
        let children = std::mem::take(&mut entry.children);
        let leaves = std::mem::take(&mut entry.leaves);
        let mut group = TagGroup::new(entry.role.tag());
        for leaf in leaves {
            group.push(leaf);
        }
        for child in children {
            if let Some(child) = self.group(child) {
                group.push(child);
            }
        }
        (!group.children.is_empty()).then_some(group)
    }
}

impl Role {
    fn tag(&self) -> TagKind {
        match self {
            Role::Article => Tag::Article.into(),
            Role::Section => Tag::Section.into(),
            Role::Group => Tag::Div.into(),
            Role::Heading(level, title) => {
                Tag::Hn(NonZeroU16::new(*level).unwrap_or(NonZeroU16::MIN), Some(title.clone())).into()
            }
            Role::Paragraph => Tag::P.into(),
            Role::List(true) => Tag::L(ListNumbering::Decimal).into(),
            Role::List(false) => Tag::L(ListNumbering::Disc).into(),
            Role::ListItem => Tag::LI.into(),
            Role::Label => Tag::Lbl.into(),
            Role::ListBody => Tag::LBody.into(),
            Role::Table(summary) => Tag::Table.with_summary(Some(summary.clone())).into(),
            Role::TableHead => Tag::THead.into(),
            Role::TableBody => Tag::TBody.into(),
            Role::TableFoot => Tag::TFoot.into(),
            Role::Row => Tag::TR.into(),
            Role::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
            Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
            Role::Cell => Tag::TD.into(),
            Role::Contents => Tag::TOC.into(),
            Role::ContentsItem => Tag::TOCI.into(),
            Role::Link => Tag::Link.into(),
            Role::Figure(alt) => Tag::Figure(Some(alt.clone())).into(),
        }
    }
}

/// What is no part of the text: rules, grounds, and the foot and running head of a page.
pub(super) fn ornament(kind: tagging::ArtifactType) -> tagging::ContentTag<'static> {
    tagging::ContentTag::Artifact(tagging::Artifact::with_kind(kind))
}
