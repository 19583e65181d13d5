//! Questions on a terminal. Each has its usual answer in brackets, which Enter takes.

use super::Mixing;
use super::first::{Given, addition, grams, percent, plain_name, whole};
use crate::edge::cli::output::Output;
use crate::language::syntax::Key;
use crate::measure::number::Number;
use std::io::{self, IsTerminal, Write};

/// Whether somebody sits there who can answer.
pub(super) fn can_ask() -> bool {
    io::stdin().is_terminal() && io::stderr().is_terminal()
}

/// Asks for everything that was not said. `free` says whether a recipe of that name can be written.
///
/// # Errors
/// When the answers end before the questions do.
pub(super) fn fill(
    given: &mut Given,
    free: &dyn Fn(&str) -> Result<(), String>,
    output: &Output,
) -> Result<(), String> {
    if given.name.is_none() {
        let check = |text: &str| plain_name("", text).and_then(|name| free(&name));
        given.name = Some(ask("What is it called?", "", output, check)?);
    }
    if given.pieces.is_none() {
        let usual = given.usual_pieces();
        given.pieces = Some(ask("How many pieces?", usual, output, |text| whole("", text).map(drop))?);
    }
    if given.noun.is_none() {
        given.noun = Some(ask("What are they?", &given.usual_noun(), output, |text| plain_name("", text).map(drop))?);
    }
    if given.flour.is_none() && given.each.is_none() {
        let pieces = given.pieces.as_deref().and_then(|text| whole("", text).ok()).unwrap_or(Number::ONE);
        let check = |text: &str| {
            let share = grams("", text)?.over(pieces).map_err(|_| "these figures are too large".to_owned())?;
            if share < Number::ONE {
                return Err(format!("{text}: that is less than 1 g of flour for each piece"));
            }
            Ok(())
        };
        given.flour = Some(ask("How much flour?", "1 kg", output, check)?);
    }
    if given.flour_name.is_none() {
        let check = |text: &str| plain_name("", text).map(drop);
        given.flour_name = Some(ask("Which flour?", "strong white flour", output, check)?);
    }
    for (slot, question, usual) in [
        (&mut given.water, "Water, in percent of the flour?", "65"),
        (&mut given.salt, "Salt, in percent?", "2"),
        (&mut given.yeast, "Instant yeast, in percent?", "1"),
    ] {
        if slot.is_none() {
            *slot = Some(ask(question, usual, output, |text| percent("", text).map(drop))?);
        }
    }
    if given.add.is_empty() {
        loop {
            let check = |text: &str| if text == "no" { Ok(()) } else { another(given, text) };
            let more = ask("Anything else, such as butter 10?", "no", output, check)?;
            if more == "no" {
                break;
            }
            given.add.push(more);
        }
    }
    if given.mixing.is_none() {
        let read = |text: &str| match text.to_lowercase().as_str() {
            "hand" | "h" => Ok(Mixing::Hand),
            "machine" | "m" => Ok(Mixing::Machine),
            "both" | "b" => Ok(Mixing::Both),
            _ => Err("answer hand, machine or both".to_owned()),
        };
        let said = ask("Mixed by hand, by machine, or both?", "hand", output, |text| read(text).map(drop))?;
        given.mixing = read(&said).ok();
    }
    Ok(())
}

/// Whether something else can be added: it has to be said with a percentage, and only once.
fn another(given: &Given, text: &str) -> Result<(), String> {
    let (name, _) = addition("", text)?;
    let added: Vec<String> = given.add.iter().filter_map(|said| Some(addition("", said).ok()?.0)).collect();
    let known = ["water", "salt", "instant yeast"].into_iter().chain(given.flour_name.as_deref());
    if known.chain(added.iter().map(String::as_str)).any(|known| Key::new(known) == Key::new(&name)) {
        return Err(format!("there is {name} already"));
    }
    Ok(())
}

/// Asks until the answer can be used.
fn ask(
    question: &str,
    usual: &str,
    output: &Output,
    check: impl Fn(&str) -> Result<(), String>,
) -> Result<String, String> {
    loop {
        let shown = if usual.is_empty() { format!("{question} ") } else { format!("{question} [{usual}] ") };
        // The question is for whoever sits there; if it cannot be shown, neither can anything else.
        let _ = write!(io::stderr(), "{shown}");
        let _ = io::stderr().flush();
        let mut line = String::new();
        match io::stdin().read_line(&mut line) {
            Ok(0) | Err(_) => {
                // What is said next begins a line of its own.
                let _ = writeln!(io::stderr());
                return Err("there were no more answers, so nothing was written".to_owned());
            }
            Ok(_) => {}
        }
        let said = if line.trim().is_empty() { usual } else { line.trim() };
        match check(said) {
            Ok(()) => return Ok(said.to_owned()),
            Err(why) => output.tell(&why),
        }
    }
}
