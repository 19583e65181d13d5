//! What bakers work with: recipes, steps, kitchens, ingredients, notes, and the files that name each other.

pub mod aim;
pub mod alive;
pub mod allergen;
pub mod baked;
pub mod book;
pub(crate) mod choice;
pub mod contains;
pub mod cooking;
pub(crate) mod counted;
pub mod flow;
pub(crate) mod keeps;
pub mod kind;
pub mod kitchen;
pub mod larder;
pub mod notes;
pub mod nutrient;
pub(crate) mod places;
pub mod project;
pub mod published;
pub mod recipe;
pub mod reference;
pub mod sale;
pub mod species;
pub mod step;
pub mod ways;
pub mod words;
