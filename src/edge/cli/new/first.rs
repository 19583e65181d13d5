//! The first file: one dough in baker's percentages, its steps with times as they are usual.
//!
//! Times, heat and the loss are common practice, no source; the file says that they want changing.

use super::{Arguments, Mixing};
use crate::edge::cli::scaling::{mass, number};
use crate::language::syntax::Key;
use crate::language::tidy::tidy;
use crate::measure::noun;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;

/// What was said so far; the rest is as usual.
#[derive(Debug, Clone)]
pub(super) struct Given {
    pub(super) name: Option<String>,
    pub(super) pieces: Option<String>,
    pub(super) noun: Option<String>,
    pub(super) each: Option<String>,
    pub(super) flour: Option<String>,
    pub(super) flour_name: Option<String>,
    pub(super) water: Option<String>,
    pub(super) salt: Option<String>,
    pub(super) yeast: Option<String>,
    pub(super) add: Vec<String>,
    pub(super) mixing: Option<Mixing>,
}

/// A file to write.
pub(super) struct First {
    pub(super) name: String,
    pub(super) text: String,
}

/// What sticks, trims and evaporates of a dough, in percent.
const LOSS: &str = "1.5";

impl Given {
    pub(super) fn of(arguments: &Arguments) -> Given {
        Given {
            name: arguments.name.clone(),
            pieces: arguments.pieces.clone(),
            noun: arguments.noun.clone(),
            each: arguments.each.clone(),
            flour: arguments.flour.clone(),
            flour_name: arguments.flour_name.clone(),
            water: arguments.water.clone(),
            salt: arguments.salt.clone(),
            yeast: arguments.yeast.clone(),
            add: arguments.add.clone(),
            mixing: arguments.mixing,
        }
    }

    fn noun_by_name(&self) -> Option<String> {
        self.name.as_deref().and_then(noun::made_by)
    }

    /// What is made, if nobody says otherwise: what the name says, else loaves.
    pub(super) fn usual_noun(&self) -> String {
        self.noun_by_name().unwrap_or_else(|| "loaves".to_owned())
    }

    /// How many pieces, if nobody says otherwise: a dozen of what is small. Common practice, no source.
    pub(super) fn usual_pieces(&self) -> &'static str {
        const SMALL: &[&str] = &["bagel", "bap", "bun", "croissant", "doughnut", "muffin", "pretzel", "roll", "scone"];
        let noun = self.noun.clone().unwrap_or_else(|| self.usual_noun()).to_lowercase();
        let last = noun.rsplit(' ').next().unwrap_or_default().trim_end_matches('s');
        if SMALL.contains(&last) { "12" } else { "2" }
    }

    /// What was not said and so is as usual, by the options that say it.
    pub(super) fn missing(&self) -> Vec<&'static str> {
        let all = [
            ("--pieces", self.pieces.is_some()),
            ("--noun", self.noun.is_some() || self.noun_by_name().is_some()),
            ("--flour or --each", self.flour.is_some() || self.each.is_some()),
            ("--flour-name", self.flour_name.is_some()),
            ("--water", self.water.is_some()),
            ("--salt", self.salt.is_some()),
            ("--yeast", self.yeast.is_some()),
            ("--mixing", self.mixing.is_some()),
        ];
        all.into_iter().filter(|(_, said)| !said).map(|(option, _)| option).collect()
    }

    /// The file.
    ///
    /// # Errors
    /// A sentence that says which figure cannot be read or does not fit.
    pub(super) fn first(&self) -> Result<First, String> {
        let name = self.name.clone().ok_or(NO_NAME)?;
        let name = plain_name("the name", &name)?;
        let pieces = whole("--pieces", self.pieces.as_deref().unwrap_or(self.usual_pieces()))?;
        let noun = plain_name("--noun", self.noun.as_deref().unwrap_or(&self.usual_noun()))?;
        let flour_name = plain_name("--flour-name", self.flour_name.as_deref().unwrap_or("strong white flour"))?;
        let mut shares = Vec::new();
        for (what, name, said, usual) in [
            ("--water", "water", &self.water, "65"),
            ("--salt", "salt", &self.salt, "2"),
            ("--yeast", "instant yeast", &self.yeast, "1"),
        ] {
            let (shown, share) = percent(what, said.as_deref().unwrap_or(usual))?;
            if !share.is_zero() {
                shares.push((name.to_owned(), shown, share));
            }
        }
        for said in &self.add {
            let (name, share) = addition("--add", said)?;
            let twice = std::iter::once(&flour_name).chain(shares.iter().map(|(name, ..)| name));
            if twice.map(|name| Key::new(name)).any(|known| known == Key::new(&name)) {
                return Err(format!("--add {said}: there is {name} already"));
            }
            let (shown, share) = percent("--add", &share)?;
            shares.push((name, shown, share));
        }
        let each = self.each.as_deref().map(|text| grams("--each", text)).transpose()?;
        let flour = match (&self.flour, &self.each) {
            (Some(text), _) => Some((text.clone(), grams("--flour", text)?)),
            (None, Some(_)) => None,
            (None, None) => Some(("1 kg".to_owned(), grams("--flour", "1 kg")?)),
        };
        let too_large = |_| "these figures are too large to be reckoned with".to_owned();
        let each = match (each, &flour) {
            (Some(each), _) => each,
            (None, Some((_, flour))) => share_of(*flour, &shares, pieces).map_err(too_large)?,
            (None, None) => return Err("say how much flour, or what one piece weighs".to_owned()),
        };
        if !each.is_positive() {
            return Err("a piece would weigh nothing: take more flour, or fewer pieces".to_owned());
        }
        let flour = flour.map_or_else(|| "100 %".to_owned(), |(text, _)| text);
        let mixing = self.mixing.unwrap_or(Mixing::Hand);
        let (noun, flour_name, flour, shares) = (&noun, &flour_name, &flour, &shares);
        let text = Figures { name: &name, pieces, noun, flour_name, flour, shares, each, mixing }.text();
        let text = tidy(&text, None).unwrap_or(text);
        Ok(First { name, text })
    }
}

/// The figures of a first recipe, as they are written.
struct Figures<'a> {
    name: &'a str,
    pieces: Number,
    noun: &'a str,
    flour_name: &'a str,
    flour: &'a str,
    shares: &'a [(String, String, Number)],
    each: Number,
    mixing: Mixing,
}

impl Figures<'_> {
    /// The file.
    fn text(&self) -> String {
        let Figures { name, noun, flour_name, flour, shares, each, mixing, .. } = *self;
        let (count, weight) = (show::number(self.pieces).replace('\u{2009}', ""), each.decimal(1));
        let mut text = format!("recipe {name}\nmakes {count} {noun}\n");
        if mixing == Mixing::Both {
            text.push_str("choose mixing: machine or hand\n");
        }
        text.push_str(&format!("\n{flour_name} .. {flour}\n"));
        for (name, shown, _) in shares {
            text.push_str(&format!("{name} .. {shown} %\n"));
        }
        text.push_str(&format!("divide {count} x {weight} g, loss {LOSS} %\n\n"));
        text.push_str("# Times and heat are the usual ones. Change them to yours.\n");
        let mut all: Vec<String> = vec![format!("{{{flour_name}}}")];
        all.extend(shares.iter().map(|(name, ..)| format!("{{{name}}}")));
        let all = show::list(&all);
        let only = |option: &str| if mixing == Mixing::Both { format!("  [{option}]") } else { String::new() };
        if mixing != Mixing::Hand {
            text.push_str(&format!(
                "mix: hands 10 min, using mixer{}\n{}    until smooth, and it stretches thin without tearing\n",
                only("machine"),
                wrapped(&format!("Mix {all} for {{3 min}} on low and {{5 min}} on medium."))
            ));
        }
        if mixing != Mixing::Machine {
            text.push_str(&format!(
                "mix: hands 15 min{}\n{}    until smooth and no longer sticky\n",
                only("hand"),
                wrapped(&format!("Stir {all} together, then knead."))
            ));
        }
        let (bake, heat) = if each < Number::whole(150) {
            ("14-18", 220)
        } else if each < Number::whole(600) {
            ("25-30", 220)
        } else {
            ("35-40", 230)
        };
        text.push_str(&format!(
            "rise: wait 60-90 min, at 24 C\n    until doubled\n\
             shape: hands 1 min, each\n    Scale at {{{weight} g}} and shape.\n\
             prove: wait 45-60 min, at 26 C\n    until a finger's dent fills slowly\n\
             bake: tend {bake} min, using oven at {heat} C\n    until deep gold, and hollow when knocked underneath\n\
             cool: wait 1 h\n"
        ));
        text
    }
}

/// Prose below a step in lines of a hundred columns; what stands in braces stays together.
fn wrapped(text: &str) -> String {
    let mut lines = vec![String::from("   ")];
    let mut braced = false;
    for word in text.split(' ') {
        let Some(line) = lines.last_mut() else { continue };
        if line.chars().count() + word.chars().count() < 98 || braced {
            line.push(' ');
            line.push_str(word);
        } else {
            lines.push(format!("    {word}"));
        }
        braced = if word.contains('{') { !word.contains('}') } else { braced && !word.contains('}') };
    }
    lines.join("\n") + "\n"
}

/// What one piece weighs in grams: the dough less the loss, shared out, to the nearest that a scale shows: rounded down, what two dozen
/// pieces lose by it would look like dough left over.
fn share_of(
    flour: Number,
    shares: &[(String, String, Number)],
    pieces: Number,
) -> Result<Number, crate::measure::number::Overflow> {
    let hundred = Number::whole(100);
    let total = crate::measure::number::sum(shares.iter().map(|(.., share)| *share).chain([hundred]))?;
    let loss = number(LOSS).unwrap_or(Number::ONE);
    let dough = flour.times(total)?.over(hundred)?;
    let each = dough.times(hundred.minus(loss)?)?.over(hundred)?.over(pieces)?;
    // Small pieces need finer steps, or rounding alone would look like loss.
    let step = if each >= Number::whole(500) {
        Number::whole(5)
    } else if each >= Number::whole(60) {
        Number::ONE
    } else {
        Number::ONE.over(Number::whole(10))?
    };
    each.rounded_to(step)
}

/// Said where nobody can be asked for a name.
const NO_NAME: &str = "give the recipe a name, `miche new \"Harbour buns\"`, and what is not as usual: --pieces 12, --noun buns, \
     --flour \"2 kg\" or --each \"90 g\", --flour-name, --water 62, --salt 1.8, --yeast 1.2, --add butter=10, --mixing machine";

/// What was wrong with a text; `what` is the option that gave it, or nothing when it answers a question.
fn wrong(what: &str, text: &str, why: &str) -> String {
    format!("{what} {text}: {why}").trim_start().to_owned()
}

/// A name that the language takes.
pub(super) fn plain_name(what: &str, text: &str) -> Result<String, String> {
    let text = text.split_whitespace().collect::<Vec<&str>>().join(" ");
    let bad = text.contains([':', ',', '{', '}', '[', ']', '#', '=', '"', '…']) || text.contains("..");
    if text.is_empty()
        || bad
        || !text.chars().any(char::is_alphabetic)
        || crate::text::hidden::hidden(&text).next().is_some()
    {
        return Err(wrong(what, &text, "a name is letters, figures and spaces, without `: , { } [ ] # = \"` and dots"));
    }
    Ok(text)
}

/// A number of pieces.
pub(super) fn whole(what: &str, text: &str) -> Result<Number, String> {
    let most = Number::whole(1_000_000);
    number(text)
        .filter(|number| number.is_whole() && number.is_positive() && *number <= most)
        .ok_or_else(|| wrong(what, text, "this is no whole number of pieces; write one such as 12"))
}

/// A share as it was written, without the sign, and its value.
pub(super) fn percent(what: &str, text: &str) -> Result<(String, Number), String> {
    let bare = text.trim().trim_end_matches('%').trim();
    let value = number(bare).filter(|share| !share.is_negative() && *share <= Number::whole(1000));
    value
        .map(|share| (bare.to_owned(), share))
        .ok_or_else(|| wrong(what, text, "this is no percentage up to 1000; write a number such as 65 or 1.8"))
}

/// `butter=10`, or as people say it, `butter 10 %`.
pub(super) fn addition(what: &str, text: &str) -> Result<(String, String), String> {
    let unclear = || wrong(what, text, "write a name and a percentage of the flour, such as `butter=10`");
    let (name, share) = match text.split_once('=') {
        Some(both) => both,
        None => {
            let bare = text.trim().trim_end_matches('%').trim_end();
            bare.rsplit_once(' ').ok_or_else(unclear)?
        }
    };
    let name = plain_name(what, name)?;
    percent(what, share).map_err(|_| unclear())?;
    Ok((name, share.trim().to_owned()))
}

/// A weight in grams.
pub(super) fn grams(what: &str, text: &str) -> Result<Number, String> {
    let grams = mass(text).map(Mass::value).filter(|grams| grams.is_positive());
    grams.ok_or_else(|| wrong(what, text, "this is no weight; write one such as `1 kg`"))
}
