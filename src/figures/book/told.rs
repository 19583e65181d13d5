//! What the front page, the search and the indexes of a book tell of a recipe.

use crate::figures::reader::ReaderPage;
use crate::language::prose::Prose;
use crate::model::published::Picture;

/// What is told of a recipe where its page does not stand.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Told {
    /// Who wrote it.
    pub by: Option<String>,
    /// Where it is looked for.
    pub filed_under: Vec<String>,
    /// Its stories, without marks.
    pub story: Vec<String>,
    /// What it makes, as printed: `24 buns`.
    pub makes: Option<String>,
    /// Minutes of work.
    pub active_minutes: i64,
    /// Minutes from the first step to the last.
    pub total_minutes: i64,
    /// What goes in by any way, parts left out, each once.
    pub ingredients: Vec<String>,
    /// Allergens of any way, in the words of the law.
    pub allergens: Vec<String>,
    /// Ingredients of any way of which nobody knows the allergens.
    pub allergens_unknown: Vec<String>,
    /// The picture that stands for it.
    pub cover: Option<Picture>,
    /// All its pictures.
    pub pictures: Vec<Picture>,
}

impl Told {
    /// What is told of the recipe with this main page.
    pub fn of(page: &ReaderPage) -> Told {
        let mut ingredients: Vec<String> = Vec::new();
        for name in page.ingredients() {
            if !ingredients.iter().any(|known| known == name) {
                ingredients.push(name.to_owned());
            }
        }
        Told {
            by: page.by.clone(),
            filed_under: page.filed_under.clone(),
            story: page.story.iter().map(Prose::plain).collect(),
            makes: page.makes.as_ref().map(ToString::to_string),
            active_minutes: page.way.active_minutes,
            total_minutes: page.way.total_minutes,
            ingredients,
            allergens: by_any_way(&page.allergens, page.others.iter().map(|other| &other.allergens)),
            allergens_unknown: by_any_way(
                &page.allergens_unknown,
                page.others.iter().map(|other| &other.allergens_unknown),
            ),
            cover: page.pictures.first().cloned(),
            pictures: page.all_pictures().cloned().collect(),
        }
    }
}

/// What the way in full has, and what others have besides: who must not eat hazelnuts does not know by which way it was made.
fn by_any_way<'p>(of_all: &[String], of_others: impl Iterator<Item = &'p Vec<String>>) -> Vec<String> {
    let mut all = of_all.to_vec();
    for name in of_others.flatten() {
        if !all.contains(name) {
            all.push(name.clone());
        }
    }
    all
}

impl ReaderPage {
    /// What goes in, parts left out, by this way and by the others.
    fn ingredients(&self) -> impl Iterator<Item = &str> {
        let groups = self.way.groups.iter().chain(self.others.iter().flat_map(|other| &other.groups));
        groups.flat_map(|group| &group.rows).filter(|row| !row.is_part).map(|row| row.name.as_str())
    }
}
