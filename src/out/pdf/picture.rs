//! A drawing of a page, in black and white.

use super::Press;
use super::canvas::{Canvas, Lettered};
use super::frame::{BLACK, Frame, HAIR, Pen, Stretch, WASH, WHITE};
use super::tags::{Node, Role};
use crate::model::step::StepKind;
use crate::out::picture::{Anchor, Area, MARK, Mark, On, Picture, Shape, Words, diamond};
use crate::out::report::clean;

/// Sets a picture as wide as the page.
pub(super) fn set(press: &mut Press<'_>, picture: &Picture, parent: Node) -> Frame {
    let node = press.tags.add(Some(parent), Role::Figure(clean(&picture.title).into_owned()));
    let mut canvas = Canvas::new(press, (picture.width as f64, picture.height as f64), node);
    for shape in &picture.shapes {
        draw(&mut canvas, shape);
    }
    canvas.frame
}

fn draw(canvas: &mut Canvas<'_, '_>, shape: &Shape) {
    let thin = Pen { ink: BLACK, width: 0.8, dash: None };
    match shape {
        Shape::Busy { kind, area, .. } => {
            let [x, y, width, height] = sides(area);
            match kind {
                StepKind::Hands => canvas.fill(x, y, width, height, BLACK),
                StepKind::Tend => canvas.tended([x, y, width, height], 1.5),
                StepKind::Wait => {
                    canvas.fill(x, y, width, height, HAIR);
                    canvas.outline([x, y, width, height], 0.0, thin);
                }
            }
        }
        Shape::Beside { area, .. } => {
            let [x, y, width, height] = sides(area);
            canvas.fill(x, y, width, height, WHITE);
            canvas.outline([x, y, width, height], 0.0, Pen { dash: Some((3.0, 2.0)), ..thin });
        }
        Shape::Shut(area) => {
            let [x, y, width, height] = sides(area);
            canvas.fill(x, y, width, height, WASH);
        }
        Shape::Frame(area) => canvas.outline(sides(area), 0.0, Pen { width: 1.5, ..thin }),
        Shape::Line([x1, y1, x2, y2]) => {
            let (wide, high) = ((x2 - x1) as f64, (y2 - y1) as f64);
            canvas.fill(*x1 as f64, *y1 as f64, wide.max(1.0), high.max(1.0), HAIR);
        }
        Shape::Way(way) => {
            let (width, dash) = way.stroke.drawn();
            canvas.path(line(&way.corners), None, Some(Pen { width, dash, ..thin }));
        }
        Shape::Mark(place, mark) => {
            let ([x, y], half) = (place.map(|side| side as f64), MARK as f64);
            match mark {
                Mark::Disc => canvas.disc(x, y, half),
                Mark::Square => canvas.fill(x - half, y - half, 2.0 * half, 2.0 * half, BLACK),
                Mark::Diamond => {
                    let mut path = line(&diamond(*place));
                    path.push(Stretch::Close);
                    canvas.path(path, Some(BLACK), None);
                }
            }
        }
        Shape::Words(words) => said(canvas, words),
    }
}

fn line(corners: &[[i64; 2]]) -> Vec<Stretch> {
    let begin = corners.iter().take(1).map(|[x, y]| Stretch::Move(*x as f32, *y as f32));
    begin.chain(corners.iter().skip(1).map(|[x, y]| Stretch::Line(*x as f32, *y as f32))).collect()
}

fn sides(area: &Area) -> [f64; 4] {
    [area.x, area.y, area.width, area.height].map(|side| side as f64)
}

fn said(canvas: &mut Canvas<'_, '_>, words: &Words) {
    let text = clean(&words.text);
    let ink = if words.on == On::Bar { WHITE } else { BLACK };
    let lettered = Lettered { text: &text, size: words.size as f64, bold: words.bold, ink };
    let share = match words.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => 0.5,
        Anchor::End => 1.0,
    };
    let (x, y) = (words.x as f64, words.y as f64);
    if words.on == On::Lines {
        canvas.halo(&lettered, x, y, share);
    }
    canvas.words(&lettered, x, y, share as f32);
}
