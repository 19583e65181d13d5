//! Pieces of a page: signs and shapes with their places, and the blocks that pages are filled with.

use super::face::Shaped;
use super::tags::Node;
use krilla::image::Image;
use std::rc::Rc;

/// What is printed with. Cards are printed in black and white; what readers get has one colour beside them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ink {
    /// A shade between black and white.
    Shade(u8),
    /// The colour that marks something: `--mark` of the pages, which prints dark where there is no colour.
    Mark,
}

/// What is read.
pub(super) const BLACK: Ink = Ink::Shade(0);
/// What is read second.
pub(super) const SOFT: Ink = Ink::Shade(70);
/// Hairlines.
pub(super) const HAIR: Ink = Ink::Shade(165);
/// The ground of a column.
pub(super) const WASH: Ink = Ink::Shade(238);
/// A step of the stair behind the lines of a strip.
pub(super) const STAIR: Ink = Ink::Shade(222);
/// Paper.
pub(super) const WHITE: Ink = Ink::Shade(255);

/// Signs on a line.
#[derive(Debug, Clone)]
pub(super) struct Glyphs {
    pub(super) shaped: Shaped,
    pub(super) bold: bool,
    pub(super) size: f32,
    pub(super) ink: Ink,
}

impl Glyphs {
    pub(super) fn width(&self) -> f32 {
        self.shaped.width * self.size
    }
}

/// A stretch of a path.
#[derive(Debug, Clone, Copy)]
pub(super) enum Stretch {
    Move(f32, f32),
    Line(f32, f32),
    Curve(f32, f32, f32, f32, f32, f32),
    Close,
}

/// A stroke.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pen {
    pub(super) ink: Ink,
    pub(super) width: f32,
    /// Length of a dash and of the gap after it; ends are round then.
    pub(super) dash: Option<(f32, f32)>,
}

/// Something drawn, its places counted from the corner of its frame, downwards.
#[derive(Debug, Clone)]
pub(super) enum Drawn {
    /// Signs, at the start of their baseline.
    Text(f32, f32, Glyphs),
    /// Left, top, width, height.
    Rect(f32, f32, f32, f32, Ink),
    /// A path, filled, stroked or both.
    Path(Vec<Stretch>, Option<Ink>, Option<Pen>),
    /// A picture out of a file: left, top, width, height.
    Image(f32, f32, f32, f32, Image),
    /// Signs that run upwards, at the start of their baseline.
    Upwards(f32, f32, Glyphs),
    /// What leads to a page, counted from 0: left, top, width, height. It is not seen.
    Link(f32, f32, f32, f32, usize),
}

/// Something drawn, and where it stands in the document's structure; ornaments stand nowhere.
#[derive(Debug, Clone)]
pub(super) struct Item {
    pub(super) drawn: Drawn,
    pub(super) node: Option<Node>,
}

/// Drawn things that stay together.
#[derive(Debug, Clone, Default)]
pub(super) struct Frame {
    pub(super) height: f32,
    pub(super) items: Vec<Item>,
}

impl Frame {
    /// Nothing, so high.
    pub(super) fn of_height(height: f32) -> Frame {
        Frame { height, items: Vec::new() }
    }

    /// Draws an ornament.
    pub(super) fn draw(&mut self, drawn: Drawn) {
        self.items.push(Item { drawn, node: None });
    }

    /// Sets signs that belong to a node.
    pub(super) fn set(&mut self, x: f32, baseline: f32, run: Glyphs, node: Option<Node>) {
        self.items.push(Item { drawn: Drawn::Text(x, baseline, run), node });
    }

    /// A filled rectangle.
    pub(super) fn fill(&mut self, x: f32, y: f32, width: f32, height: f32, ink: Ink) {
        self.draw(Drawn::Rect(x, y, width, height, ink));
    }

    /// A stretch of ground as high as the frame, behind all that stands in it.
    pub(super) fn ground(&mut self, x: f32, width: f32, ink: Ink) {
        let drawn = Drawn::Rect(x, 0.0, width, self.height, ink);
        self.items.insert(0, Item { drawn, node: None });
    }

    /// A rectangle's outline, inside of it.
    pub(super) fn outline(&mut self, x: f32, y: f32, width: f32, height: f32, pen: f32) {
        self.fill(x, y, width, pen, BLACK);
        self.fill(x, y + height - pen, width, pen, BLACK);
        self.fill(x, y, pen, height, BLACK);
        self.fill(x + width - pen, y, pen, height, BLACK);
    }

    /// Puts another frame into this one.
    pub(super) fn place(&mut self, other: Frame, x: f32, y: f32) {
        self.items.extend(other.items.into_iter().map(|item| Item { drawn: item.drawn.moved(x, y), ..item }));
    }

    /// Puts another frame under this one.
    pub(super) fn append(&mut self, other: Frame, x: f32, gap: f32) {
        if other.height <= 0.0 {
            return;
        }
        let y = self.height + gap;
        self.height = y + other.height;
        self.place(other, x, y);
    }

    /// The same as an ornament, for heads that are repeated.
    pub(super) fn as_ornament(&self) -> Frame {
        let items = self.items.iter().map(|item| Item { drawn: item.drawn.clone(), node: None }).collect();
        Frame { height: self.height, items }
    }

    /// Cuts a frame that is higher than a page between two lines, at most `room` down.
    pub(super) fn cut(self, room: f32) -> (Frame, Frame) {
        let spans: Vec<(f32, f32)> = self
            .items
            .iter()
            .filter_map(|item| match &item.drawn {
                Drawn::Text(_, baseline, run) => Some((baseline - run.size * 0.95, baseline + run.size * 0.25)),
                Drawn::Image(_, top, _, height, _) => Some((*top, top + height)),
                Drawn::Upwards(_, bottom, run) => Some((bottom - run.width(), *bottom)),
                Drawn::Rect(..) | Drawn::Path(..) | Drawn::Link(..) => None,
            })
            .collect();
        let crosses = |y: f32| spans.iter().any(|(top, bottom)| *top < y && y < *bottom);
        // From the lowest on, since the first that fits is what is sought: of a page of words nearly every line ends between two others.
        let mut ends: Vec<f32> = spans.iter().map(|(_, bottom)| *bottom).filter(|y| *y <= room).collect();
        ends.sort_unstable_by(|one, other| other.total_cmp(one));
        ends.dedup();
        let at = ends.into_iter().find(|y| !crosses(*y)).unwrap_or(0.0);
        // A single line higher than a page is cut where the page ends.
        let at = if at > 0.0 { at } else { room };
        let (mut above, mut below) = (Frame::of_height(at), Frame::of_height(self.height - at));
        for item in self.items {
            match item.drawn {
                Drawn::Rect(x, y, width, height, ink) if y < at && y + height > at => {
                    above.fill(x, y, width, at - y, ink);
                    below.fill(x, 0.0, width, y + height - at, ink);
                }
                drawn if drawn.top() < at => above.items.push(Item { drawn, node: item.node }),
                drawn => below.items.push(Item { drawn: drawn.moved(0.0, -at), node: item.node }),
            }
        }
        (above, below)
    }
}

impl Drawn {
    fn moved(self, dx: f32, dy: f32) -> Drawn {
        match self {
            Drawn::Text(x, y, run) => Drawn::Text(x + dx, y + dy, run),
            Drawn::Rect(x, y, width, height, ink) => Drawn::Rect(x + dx, y + dy, width, height, ink),
            Drawn::Path(path, fill, pen) => {
                let moved = path.into_iter().map(|stretch| match stretch {
                    Stretch::Move(x, y) => Stretch::Move(x + dx, y + dy),
                    Stretch::Line(x, y) => Stretch::Line(x + dx, y + dy),
                    Stretch::Curve(a, b, c, d, x, y) => Stretch::Curve(a + dx, b + dy, c + dx, d + dy, x + dx, y + dy),
                    Stretch::Close => Stretch::Close,
                });
                Drawn::Path(moved.collect(), fill, pen)
            }
            Drawn::Image(x, y, width, height, image) => Drawn::Image(x + dx, y + dy, width, height, image),
            Drawn::Upwards(x, y, run) => Drawn::Upwards(x + dx, y + dy, run),
            Drawn::Link(x, y, width, height, page) => Drawn::Link(x + dx, y + dy, width, height, page),
        }
    }

    fn top(&self) -> f32 {
        match self {
            Drawn::Text(_, baseline, run) => baseline - run.size * 0.5,
            Drawn::Rect(_, y, ..) | Drawn::Image(_, y, ..) | Drawn::Link(_, y, ..) => *y,
            Drawn::Upwards(_, y, run) => y - run.width(),
            Drawn::Path(path, ..) => path
                .iter()
                .filter_map(|stretch| match stretch {
                    Stretch::Move(_, y) | Stretch::Line(_, y) | Stretch::Curve(_, _, _, _, _, y) => Some(*y),
                    Stretch::Close => None,
                })
                .fold(f32::INFINITY, f32::min),
        }
    }
}

/// A frame that no page break goes through.
#[derive(Debug, Clone)]
pub(super) struct Block {
    pub(super) frame: Frame,
    /// Room above it, when it does not begin a page.
    pub(super) above: f32,
    /// Whether it stays on a page with the block after it.
    pub(super) keep: bool,
    /// The head of its table, repeated when the block begins a page.
    pub(super) repeat: Option<Rc<Frame>>,
    /// Whether a hairline parts it from what stands above it.
    pub(super) ruled: bool,
}

impl Block {
    pub(super) fn new(frame: Frame, above: f32) -> Block {
        Block { frame, above, keep: false, repeat: None, ruled: false }
    }

    pub(super) fn kept(self) -> Block {
        Block { keep: true, ..self }
    }
}

/// What pages are filled with.
#[derive(Debug, Clone)]
pub(super) enum Flow {
    One(Block),
    /// Blocks of half the width, in two columns beside each other.
    Two(Vec<Block>),
    /// Two columns that go their own ways down the pages.
    Beside(Beside),
}

/// Two columns of which each goes on over the page for itself.
#[derive(Debug, Clone)]
pub(super) struct Beside {
    /// What stands at the left.
    pub(super) left: Vec<Block>,
    /// What stands at the right.
    pub(super) right: Vec<Block>,
    /// Where the right one begins.
    pub(super) at: f32,
    /// Room above both, when they do not begin a page.
    pub(super) above: f32,
}

/// Keeps the last block on a page with what comes after it.
pub(super) fn keep_last(flows: &mut [Flow]) {
    if let Some(Flow::One(block)) = flows.last_mut() {
        block.keep = true;
    }
}
