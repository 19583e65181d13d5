//! The larder that the program brings, by allergen: a table that a person can read through.

use super::block::{Block, Heading, Phrase, Text, words};
use crate::model::allergen::Law;
use crate::model::larder::Facts;
use crate::model::species;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Every entry under each allergen that it holds, by both laws, then those that hold none, then what is known of their figures.
pub fn page(entries: &[Arc<Facts>]) -> Vec<Block> {
    let mut blocks = vec![Heading::block(1, "The larder by allergen")];
    blocks.push(words(
        "What is common in a bought thing is counted as in it. The pack goes before what stands here, and so does the law of the place.",
    ));
    for (law, title) in [
        (Law::Eu, "European Union: Regulation (EU) 1169/2011, Annex II"),
        (Law::Us, "United States: FALCPA 2004 with the FASTER Act 2021"),
    ] {
        blocks.push(Heading::block(2, title));
        let mut by_allergen: BTreeMap<(usize, String), Vec<&str>> = BTreeMap::new();
        let mut none: Vec<&str> = Vec::new();
        for facts in entries {
            let said = species::said(law, facts.allergens.iter().map(String::as_str));
            for one in &said {
                let place = law.listed().iter().position(|word| *word == one.word).unwrap_or(usize::MAX);
                let name = match &one.species {
                    Some(species) => format!("{}: {species}", one.word),
                    None if one.lacks_species(law) => format!("{}: which is not said", one.word),
                    None => one.word.to_owned(),
                };
                by_allergen.entry((place, name)).or_default().push(&facts.name);
            }
            if said.is_empty() {
                none.push(&facts.name);
            }
        }
        for ((_, name), foods) in by_allergen {
            blocks.push(listed(&name, &foods));
        }
        blocks.push(listed("none that the law lists", &none));
    }
    blocks.push(Heading::block(2, "Figures"));
    let has = |word: &str| -> Vec<&str> {
        let of = entries.iter().filter(|facts| facts.sources.iter().any(|source| source.contains(word)));
        of.map(|facts| facts.name.as_str()).collect()
    };
    let without: Vec<&str> = entries
        .iter()
        .filter(|facts| facts.contents.fat.is_none() && facts.contents.water.is_none())
        .map(|facts| facts.name.as_str())
        .collect();
    blocks.push(listed("by proxy, of another food", &has("by proxy")));
    blocks.push(listed("mixed of others", &has("mixed of")));
    blocks.push(listed("of the French table", &has("CIQUAL")));
    blocks.push(listed("from memory", &has("from memory")));
    blocks.push(listed("none", &without));
    blocks
}

fn listed(name: &str, foods: &[&str]) -> Block {
    let text = format!(" ({}): {}", foods.len(), foods.join(", "));
    Block::Text(Text::wrapped(vec![Phrase::strong(name), Phrase::plain(text)], "", "    "))
}
