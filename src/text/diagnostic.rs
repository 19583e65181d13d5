//! A problem as one plain value: what is wrong, where, with which figures, and how to mend it.
//!
//! Nothing here prints; `report` does.

use crate::text::source::Span;
use std::borrow::Cow;

/// How much a problem matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The formula cannot be right; no card is made from it.
    Error,
    /// Probably not what was meant.
    Warning,
    /// Worth knowing; nothing is wrong with the file.
    Advice,
}

impl Severity {
    /// The word used in every output.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::Advice => "advice",
        }
    }
}

/// A further place that a problem involves, and what it has to do with it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// A few words.
    pub text: String,
}

/// Replace one stretch of text by another.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Edit {
    /// What is replaced; an empty stretch inserts.
    pub span: Span,
    /// What stands there afterwards.
    pub text: String,
}

/// A change of the text that makes a problem go away.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Mend {
    /// What the change does, in the imperative.
    pub title: String,
    /// The edits, none overlapping.
    pub edits: Vec<Edit>,
    /// Whether the change is certain to be what was meant, so that `check --fix` may make it unasked.
    pub certain: bool,
}

/// One problem.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Diagnostic {
    /// The name of the check, for example `never-used`.
    pub check: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// One sentence with the figures.
    pub message: String,
    /// The main place.
    pub span: Span,
    /// A few words under the main place; may be empty.
    pub label: String,
    /// The other places involved.
    pub also: Vec<Label>,
    /// What to do about it.
    pub help: Option<String>,
    /// The change that does it.
    pub mend: Option<Mend>,
    /// Another change that does it too, where only a person knows which of the two was meant: an editor offers both.
    pub other_mend: Option<Mend>,
    /// With which options of the recipe's choices it was found, as `model::ways` says them; empty when it is with all.
    pub only: String,
}

impl Diagnostic {
    fn new(severity: Severity, check: &'static str, span: Span, message: impl Into<String>) -> Diagnostic {
        Diagnostic {
            check,
            severity,
            message: message.into(),
            span,
            label: String::new(),
            also: Vec::new(),
            help: None,
            mend: None,
            other_mend: None,
            only: String::new(),
        }
    }

    /// The sentence, with the options under which it is so: `… (with hand kneading)`.
    pub fn said(&self) -> Cow<'_, str> {
        match self.only.as_str() {
            "" => Cow::Borrowed(&self.message),
            only => Cow::Owned(format!("{} (with {only})", self.message)),
        }
    }

    /// An error.
    pub fn error(check: &'static str, span: Span, message: impl Into<String>) -> Diagnostic {
        Diagnostic::new(Severity::Error, check, span, message)
    }

    /// A warning.
    pub fn warning(check: &'static str, span: Span, message: impl Into<String>) -> Diagnostic {
        Diagnostic::new(Severity::Warning, check, span, message)
    }

    /// A piece of advice.
    pub fn advice(check: &'static str, span: Span, message: impl Into<String>) -> Diagnostic {
        Diagnostic::new(Severity::Advice, check, span, message)
    }

    /// Adds the words under the main place.
    #[must_use]
    pub fn label(mut self, text: impl Into<String>) -> Diagnostic {
        self.label = text.into();
        self
    }

    /// Adds a further place.
    #[must_use]
    pub fn also(mut self, span: Span, text: impl Into<String>) -> Diagnostic {
        self.also.push(Label { span, text: text.into() });
        self
    }

    /// Adds what to do.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Diagnostic {
        self.help = Some(text.into());
        self
    }

    /// Adds a change that is certain to be what was meant.
    #[must_use]
    pub fn mend(mut self, title: impl Into<String>, span: Span, text: impl Into<String>) -> Diagnostic {
        self.mend = Some(Mend { title: title.into(), edits: vec![Edit { span, text: text.into() }], certain: true });
        self
    }

    /// Adds a name that was probably meant, and the change to it.
    #[must_use]
    pub fn meant(self, span: Span, name: &str) -> Diagnostic {
        self.help(format!("did you mean `{name}`?")).suggest(format!("write `{name}`"), span, name)
    }

    /// Adds a change that a person should look at first.
    #[must_use]
    pub fn suggest(self, title: impl Into<String>, span: Span, text: impl Into<String>) -> Diagnostic {
        let mut changed = self.mend(title, span, text);
        if let Some(mend) = &mut changed.mend {
            mend.certain = false;
        }
        changed
    }

    /// Adds another change in place of the one that is suggested.
    #[must_use]
    pub fn or_suggest(mut self, title: impl Into<String>, span: Span, text: impl Into<String>) -> Diagnostic {
        self.other_mend =
            Some(Mend { title: title.into(), edits: vec![Edit { span, text: text.into() }], certain: false });
        self
    }
}

/// Puts problems in the order of their places and drops what was said twice.
///
/// Every choice of a recipe is checked, so that most problems are found once per choice.
pub fn sort_and_dedup(diagnostics: &mut Vec<Diagnostic>) {
    diagnostics
        .sort_by(|a, b| (a.span, a.severity, a.check, &a.message).cmp(&(b.span, b.severity, b.check, &b.message)));
    diagnostics.dedup_by(|b, a| (a.check, a.span, &a.message) == (b.check, b.span, &b.message));
}

/// A message with one mark in the place of each figure: a problem that stands says others when an amount moves. What is quoted and begins with
/// no figure is a name (`flour type 550`) and stays.
pub fn without_figures(message: &str) -> String {
    let mut words = String::with_capacity(message.len());
    let (mut in_name, mut in_figure, mut is_quoted) = (false, false, false);
    let mut rest = message.chars().peekable();
    while let Some(one) = rest.next() {
        if one == '`' {
            is_quoted = !is_quoted;
            in_name = is_quoted && rest.peek().is_none_or(|first| !first.is_numeric());
        }
        let goes_on = !in_name && (one.is_numeric() || in_figure && matches!(one, '.' | ',' | '/' | ' '));
        if !goes_on {
            words.push(one);
        } else if !in_figure {
            words.push('#');
        }
        in_figure = goes_on;
    }
    words
}

#[cfg(test)]
mod tests {
    use super::without_figures;

    #[test]
    fn figures_move_and_names_stay() {
        let told = without_figures("`flour type 550` is 1 1/2 oz too much, 12.5 % of `1.5 kg`");
        assert_eq!(told, "`flour type 550` is #oz too much, #% of `#kg`");
        assert_eq!(told, without_figures("`flour type 550` is 2 oz too much, 9 % of `800 kg`"));
        assert_ne!(told, without_figures("`flour type 405` is 2 oz too much, 9 % of `800 kg`"));
    }
}
