//! Options that give the day's temperatures, shared by the commands that reckon the water.

use super::scaling::degrees;
use crate::make::mix::Today;
use crate::measure::show;
use crate::measure::temperature::{Temperature, TemperatureDifference};
use crate::model::kitchen::MOST_FRICTION;
use clap::Args;

/// The day's temperatures; a bare number is °C, `72 F` is °F.
#[derive(Debug, Args)]
#[command(next_help_heading = "The day's temperatures (a bare number is °C)")]
pub(super) struct DayFigures {
    /// The room
    #[arg(long, value_name = "TEMP")]
    room: Option<String>,
    /// The flour; as warm as the room if nothing is said
    #[arg(long, value_name = "TEMP")]
    flour_at: Option<String>,
    /// The preferment; as warm as its last place if nothing is said
    #[arg(long, value_name = "TEMP")]
    preferment_at: Option<String>,
    /// The water from the tap; 15 °C if nothing is said
    #[arg(long, value_name = "TEMP")]
    tap: Option<String>,
    /// The mixer's friction, instead of the kitchen's
    #[arg(long, value_name = "DEGREES")]
    friction: Option<String>,
}

impl DayFigures {
    /// What was given.
    ///
    /// # Errors
    /// A sentence that says which figure cannot be read or cannot be.
    pub(super) fn today(&self) -> Result<Today, String> {
        let today = Today {
            room: temperature("--room", self.room.as_deref())?,
            flour: temperature("--flour-at", self.flour_at.as_deref())?,
            preferment: temperature("--preferment-at", self.preferment_at.as_deref())?,
            tap: temperature("--tap", self.tap.as_deref())?,
            friction: match &self.friction {
                Some(text) => Some(difference(text)?),
                None => None,
            },
        };
        if let Some(tap) = today.tap.filter(|tap| tap.celsius().is_negative()) {
            return Err(format!("--tap {} °C: water from a tap is not below freezing", tap.celsius().decimal(1)));
        }
        if today.room.is_none() && today.flour.is_some() {
            return Err("--flour-at wants --room beside it: the sum is made of both".to_owned());
        }
        Ok(today)
    }
}

impl DayFigures {
    /// The options that were given.
    pub(super) fn given(&self) -> Vec<&'static str> {
        let all = [
            ("--room", &self.room),
            ("--flour-at", &self.flour_at),
            ("--preferment-at", &self.preferment_at),
            ("--tap", &self.tap),
            ("--friction", &self.friction),
        ];
        all.into_iter().filter(|(_, said)| said.is_some()).map(|(option, _)| option).collect()
    }

    /// A friction that no mixer has, in a sentence: it is reckoned with, and looks like any other in what is printed.
    pub(super) fn doubt(&self) -> Option<String> {
        let warms = self.friction.as_deref().and_then(|text| difference(text).ok())?.celsius();
        let most = MOST_FRICTION.decimal(0);
        let told = format!("--friction: no mixer warms a dough by {} °C; {most} °C is the most", warms.decimal(1));
        (warms > MOST_FRICTION).then_some(told)
    }

    /// That they change nothing here, where they do not: a card without the water that was asked for would pass for one with it.
    pub(super) fn in_vain(&self) -> String {
        let given = self.given();
        let changes = if given.len() == 1 { "changes" } else { "change" };
        let why = if self.room.is_none() {
            "how warm the water must be is reckoned from the room, give --room beside it"
        } else {
            "how warm the water must be is said of a part that has `desired temperature 25 C` and a mix"
        };
        format!("{} {changes} nothing here: {why}", show::list(&given))
    }
}

fn temperature(option: &str, text: Option<&str>) -> Result<Option<Temperature>, String> {
    text.map(|text| bench_temperature(option, text)).transpose()
}

/// One temperature of a bench: nobody bakes outside of −40 to 60 °C.
///
/// # Errors
/// A sentence that names the option, and what cannot be read or cannot be.
pub(super) fn bench_temperature(option: &str, text: &str) -> Result<Temperature, String> {
    let unreadable = || format!("{option} {text}: this is not a temperature such as `22` or `72 F`");
    let (number, fahrenheit) = degrees(text).ok_or_else(unreadable)?;
    let at =
        if fahrenheit { Temperature::from_fahrenheit(number).ok() } else { Some(Temperature::from_celsius(number)) };
    let at = at.ok_or_else(unreadable)?;
    let celsius = at.celsius();
    if celsius < crate::measure::number::Number::whole(-40) || celsius > crate::measure::number::Number::whole(60) {
        return Err(format!(
            "{option} {text}: no bench is {} °C warm; a temperature is between -40 and 60 °C",
            celsius.decimal(1)
        ));
    }
    Ok(at)
}

fn difference(text: &str) -> Result<TemperatureDifference, String> {
    let unreadable = || format!("--friction {text}: this is not a number of degrees such as `12` or `22 F`");
    let (number, fahrenheit) = degrees(text).ok_or_else(unreadable)?;
    if number.is_negative() {
        return Err(format!("--friction {text}: no mixer cools a dough, its friction cannot be less than nothing"));
    }
    let difference = if fahrenheit {
        TemperatureDifference::from_fahrenheit(number).ok()
    } else {
        Some(TemperatureDifference::from_celsius(number))
    };
    difference.ok_or_else(unreadable)
}
