//! What bakers work with: recipes, steps, kitchens, ingredients, and the files that name each other.

pub mod alive;
pub mod allergen;
pub mod cooking;
pub mod flow;
pub mod kitchen;
pub mod larder;
pub mod project;
pub mod recipe;
pub mod step;
