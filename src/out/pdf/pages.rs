//! Blocks on pages: where a page ends, what stands at its head and foot, and how it is painted.

mod beside;

use super::frame::{BLACK, Block, Drawn, Flow, Frame, Glyphs, HAIR, Ink, Item, Pen, SOFT, Stretch};
use super::paragraph::{self, Setting, Side, Words};
use super::tags::{Node, Tags, ornament};
use super::{Geometry, Made, Press};
use krilla::color::{luma, rgb};
use krilla::geom::{PathBuilder, Point, Rect, Size, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, LineCap, Paint, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{ArtifactType, ContentTag, SpanTag};

/// A page, its frames with their places.
pub(super) struct Page {
    body: Vec<(f32, f32, Frame)>,
    pub(super) head: Option<Frame>,
    pub(super) foot: Vec<(f32, Frame)>,
    /// How far all of it stands to the right, for a page that is bound.
    pub(super) shift: f32,
}

impl Page {
    /// A page of frames at their places, without head and foot.
    pub(super) fn of(body: Vec<(f32, f32, Frame)>) -> Page {
        Page { body, head: None, foot: Vec::new(), shift: 0.0 }
    }
}

/// Fills pages with a sheet; `foot` is what its foot says, `title` what its running head says.
pub(super) fn fill(press: &Press<'_>, made: Made) -> Vec<Page> {
    let mut filler = Filler::new(press, running_head(press, &made.title));
    filler.all(&made.flows);
    filler.finish(&made.title, &made.facts)
}

/// Fills pages without head and foot, for who sets those himself.
pub(super) fn fill_bare(press: &Press<'_>, flows: &[Flow]) -> Vec<Page> {
    let mut filler = Filler::new(press, Frame::default());
    filler.all(flows);
    filler.pages
}

/// What stands over a sheet's second page and those after it.
fn running_head(press: &Press<'_>, title: &str) -> Frame {
    let (em, width) = (press.em, press.geometry.width);
    let size = em * 0.95;
    let words = [Words::new(title, size).bold(), Words::new(", continued", size).ink(SOFT)];
    let mut running = one_line(press, &words, width, Side::Left).unwrap_or_default();
    running.fill(0.0, running.height + em * 0.15, width, em * 0.2, BLACK);
    running.height += em * 0.35;
    running
}

struct Filler<'a, 'p> {
    press: &'a Press<'p>,
    geometry: Geometry,
    running: Frame,
    pages: Vec<Page>,
    /// How far down the page is filled.
    y: f32,
    /// Whether anything stands on it.
    begun: bool,
}

impl<'a, 'p> Filler<'a, 'p> {
    fn new(press: &'a Press<'p>, running: Frame) -> Filler<'a, 'p> {
        let geometry = press.geometry;
        Filler { press, geometry, running, pages: vec![Page::of(Vec::new())], y: 0.0, begun: false }
    }

    fn all(&mut self, flows: &[Flow]) {
        for (at, flow) in flows.iter().enumerate() {
            match flow {
                Flow::One(block) => {
                    let rest = flows.get(at + 1..).unwrap_or(&[]);
                    self.one(block.clone(), rest);
                }
                Flow::Two(blocks) => self.two(blocks.clone()),
                Flow::Beside(both) => self.beside(both.clone()),
            }
        }
    }

    /// How far down what continues begins.
    fn continued_top(&self) -> f32 {
        if self.running.height > 0.0 { self.running.height + self.press.em * 0.5 } else { 0.0 }
    }

    /// The room on a page that continues.
    fn continued_room(&self) -> f32 {
        self.geometry.height - self.continued_top()
    }

    fn left(&self) -> f32 {
        self.geometry.height - self.y
    }

    fn next_page(&mut self) {
        let head = (self.running.height > 0.0).then(|| self.running.clone());
        self.pages.push(Page { head, ..Page::of(Vec::new()) });
        self.y = self.continued_top();
        self.begun = false;
    }

    /// The frame of a block that stands under another one, parted from it.
    fn parted(&self, block: Block, width: f32) -> Frame {
        let mut frame = block.frame;
        if block.ruled {
            frame.fill(0.0, 0.0, width, self.press.em * 0.07, HAIR);
        }
        frame
    }

    fn put(&mut self, x: f32, frame: Frame) {
        let height = frame.height;
        let y = self.y;
        if let Some(page) = self.pages.last_mut() {
            page.body.push((x, y, frame));
        }
        self.y += height;
        self.begun = true;
    }

    fn one(&mut self, block: Block, rest: &[Flow]) {
        let above = if self.begun { block.above } else { 0.0 };
        let needs = self.needs(&block, rest);
        if above + needs > self.left() && self.begun {
            self.next_page();
            if let Some(head) = &block.repeat {
                self.put(0.0, head.as_ornament());
            }
        } else {
            self.y += above;
        }
        let frame = if self.begun { self.parted(block, self.geometry.width) } else { block.frame };
        self.put_whole(frame);
    }

    /// Puts a frame, cut where it is higher than a page.
    fn put_whole(&mut self, frame: Frame) {
        let mut frame = frame;
        while frame.height > self.left() + 0.1 {
            let room = self.left();
            if room < self.press.em * 2.0 && self.begun {
                self.next_page();
                continue;
            }
            let (above, below) = frame.cut(room);
            self.put(0.0, above);
            self.next_page();
            frame = below;
        }
        self.put(0.0, frame);
    }

    /// How much room a block and those that it must stay with take; only the next where all are more than a page.
    fn needs(&self, block: &Block, rest: &[Flow]) -> f32 {
        let mut chain = block.frame.height;
        let mut with_next = chain;
        let mut keep = block.keep;
        for (at, flow) in rest.iter().enumerate() {
            if !keep {
                break;
            }
            match flow {
                Flow::One(next) => {
                    chain += next.above + next.frame.height;
                    keep = next.keep;
                }
                Flow::Two(blocks) => {
                    chain += blocks.first().map_or(0.0, |next| next.frame.height);
                    keep = false;
                }
                Flow::Beside(both) => {
                    chain += both.above + beside::beginning(both, self.continued_room());
                    keep = false;
                }
            }
            if at == 0 {
                with_next = chain;
            }
            if chain > self.continued_room() {
                return if with_next > self.continued_room() { block.frame.height } else { with_next };
            }
        }
        chain
    }

    /// Two columns, as low as they can be.
    fn two(&mut self, blocks: Vec<Block>) {
        let gutter = self.geometry.gutter();
        let step = self.geometry.half() + gutter;
        let mut rest = blocks;
        while !rest.is_empty() {
            let tallest = rest.iter().map(|block| block.frame.height).fold(0.0, f32::max);
            if self.begun
                && tallest.min(self.continued_room()) > self.left()
                && rest.first().is_some_and(|first| first.frame.height > self.left())
            {
                self.next_page();
            }
            let room = self.left();
            if rest.first().is_some_and(|first| first.frame.height > room) {
                if self.begun {
                    self.next_page();
                    continue;
                }
                // One that is higher than a page stands by itself.
                let first = rest.remove(0);
                self.put_whole(first.frame);
                continue;
            }
            let (count, height) = balance(&rest, room);
            let top = self.y;
            let mut columns = [0.0_f32, 0.0];
            let mut column = 0;
            for block in rest.drain(..count) {
                let at = columns.get(column).copied().unwrap_or(0.0);
                let gap = if at > 0.0 { block.above } else { 0.0 };
                if at > 0.0 && at + gap + block.frame.height > height + 0.05 && column == 0 {
                    column = 1;
                }
                let at = columns.get(column).copied().unwrap_or(0.0);
                let gap = if at > 0.0 { block.above } else { 0.0 };
                self.y = top + at + gap;
                let x = if column == 0 { 0.0 } else { step };
                let end = at + gap + block.frame.height;
                let frame = if at > 0.0 { self.parted(block, self.geometry.half()) } else { block.frame };
                self.put(x, frame);
                if let Some(column) = columns.get_mut(column) {
                    *column = end;
                }
            }
            self.y = top + columns.iter().copied().fold(0.0, f32::max);
            if !rest.is_empty() {
                self.next_page();
            }
        }
    }

    fn finish(mut self, title: &str, facts: &str) -> Vec<Page> {
        let size = self.geometry.foot_size;
        let width = self.geometry.width * 0.84;
        let room = self.geometry.foot_room();
        let set = |foot: &str| {
            let words = [Words::new(foot, size).ink(SOFT)];
            paragraph::set(self.press.faces, &words, Setting::left(width, 1.2), None)
        };
        let mut lines = set(&format!("{title} · {facts}"));
        // The name stands on the sheet too; the date and the revision stand here alone, so the name gives way.
        let mut count = title.chars().count().min(LONGER_THAN_A_LINE);
        while lines.height > room && count > 0 {
            count = count.saturating_sub(4.max(count / 8));
            let kept: String = title.chars().take(count).collect();
            lines = set(&if count == 0 { facts.to_owned() } else { format!("{}… · {facts}", kept.trim_end()) });
        }
        if lines.height > room {
            lines = lines.cut(room).0;
        }
        for page in &mut self.pages {
            page.foot.push((0.0, lines.clone()));
        }
        self.pages
    }
}

/// How many blocks go into two columns, and the height of the columns: all of them as low as possible, or as many as fit.
fn balance(blocks: &[Block], room: f32) -> (usize, f32) {
    let fits = |height: f32| {
        let mut columns = [0.0_f32, 0.0];
        let mut column = 0;
        let mut count = 0;
        for block in blocks {
            loop {
                let Some(used) = columns.get_mut(column) else { return count };
                let gap = if *used > 0.0 { block.above } else { 0.0 };
                if *used == 0.0 && block.frame.height > height {
                    return count;
                }
                if *used + gap + block.frame.height <= height + 0.05 {
                    *used += gap + block.frame.height;
                    break;
                }
                column += 1;
            }
            count += 1;
        }
        count
    };
    if fits(room) < blocks.len() {
        return (fits(room).max(1), room);
    }
    // The height of a first column decides; each of them is tried.
    let mut best = room;
    let mut height = 0.0;
    for (at, block) in blocks.iter().enumerate() {
        height += block.frame.height + if at > 0 { block.above } else { 0.0 };
        if height < best && fits(height) == blocks.len() {
            best = height;
        }
    }
    let mut height = 0.0;
    for (at, block) in blocks.iter().enumerate().rev() {
        height += block.frame.height + if at + 1 < blocks.len() { block.above } else { 0.0 };
        if height < best && fits(height) == blocks.len() {
            best = height;
        }
    }
    (blocks.len(), best)
}

/// No line of a page has so many signs.
const LONGER_THAN_A_LINE: usize = 400;

/// One line, cut short with an ellipsis where it is too long.
pub(super) fn one_line(press: &Press<'_>, words: &[Words], width: f32, side: Side) -> Option<Frame> {
    let mut words = words.to_vec();
    while paragraph::width(press.faces, &words) > width {
        let longest = words.iter_mut().max_by_key(|one| one.text.chars().count())?;
        let count = longest.text.chars().count();
        // What is longer than any line is cut by half, so that a title of a thousand words is not measured a thousand times.
        let kept = if count > LONGER_THAN_A_LINE { count / 2 } else { count.checked_sub(4)? };
        longest.text = longest.text.chars().take(kept).collect::<String>() + "…";
    }
    Some(paragraph::set(press.faces, &words, Setting { width, leading: 1.3, side }, None))
}

/// Writes `page n of m` on every page.
pub(super) fn number(press: &Press<'_>, pages: &mut [Page]) {
    let count = pages.len();
    let (size, width) = (press.geometry.foot_size, press.geometry.width * 0.16);
    for (at, page) in pages.iter_mut().enumerate() {
        let words = [Words::new(format!("page {} of {count}", at + 1), size).bold().unbroken()];
        let setting = Setting { width, leading: 1.2, side: Side::Right };
        let frame = paragraph::set(press.faces, &words, setting, None);
        page.foot.push((press.geometry.width * 0.84, frame));
    }
}

/// What leads to another page: where it stands on the paper, to which page, and what it is in the structure.
pub(super) type Leads = Vec<(Rect, usize, Node)>;

/// Paints a page, and says what on it leads to others.
pub(super) fn paint(press: &mut Press<'_>, page: &Page, surface: &mut Surface<'_>) -> Leads {
    let geometry = press.geometry;
    let (left, top) = (geometry.left + page.shift, geometry.top);
    let faces = press.faces;
    let mut painter = Painter { faces, tags: &mut press.tags, open: None, leads: Vec::new() };
    if let Some(head) = &page.head {
        painter.frame(surface, head, left, top, ArtifactType::Header);
    }
    for (x, y, frame) in &page.body {
        painter.frame(surface, frame, left + x, top + y, ArtifactType::Layout);
    }
    for (x, frame) in &page.foot {
        painter.frame(surface, frame, left + x, geometry.foot_top(), ArtifactType::Footer);
    }
    painter.leads
}

struct Painter<'a> {
    faces: &'a super::face::Faces,
    tags: &'a mut Tags,
    open: Option<Option<Node>>,
    leads: Leads,
}

impl Painter<'_> {
    /// Paints a frame. What belongs together in the structure is marked together.
    fn frame(&mut self, surface: &mut Surface<'_>, frame: &Frame, x: f32, y: f32, kind: ArtifactType) {
        for item in &frame.items {
            if let (Drawn::Link(dx, dy, width, height, page), Some(node)) = (&item.drawn, item.node) {
                self.leads.extend(Rect::from_xywh(x + dx, y + dy, *width, *height).map(|area| (area, *page, node)));
                continue;
            }
            if self.open != Some(item.node) {
                self.close(surface);
                match item.node {
                    Some(node) => {
                        let what = surface.start_tagged(ContentTag::Span(SpanTag::empty()));
                        self.tags.drawn(node, what);
                    }
                    None => {
                        surface.start_tagged(ornament(kind));
                    }
                }
                self.open = Some(item.node);
            }
            self.item(surface, item, x, y);
        }
        self.close(surface);
    }

    fn close(&mut self, surface: &mut Surface<'_>) {
        if self.open.take().is_some() {
            surface.end_tagged();
        }
    }

    fn signs(&self, surface: &mut Surface<'_>, run: &Glyphs, start: Point) {
        surface.set_stroke(None);
        surface.set_fill(Some(filled(run.ink)));
        let shaped = &run.shaped;
        surface.draw_glyphs(start, &shaped.glyphs, self.faces.font(run.bold), &shaped.text, run.size, false);
    }

    fn item(&self, surface: &mut Surface<'_>, item: &Item, x: f32, y: f32) {
        match &item.drawn {
            Drawn::Text(dx, baseline, run) => self.signs(surface, run, Point::from_xy(x + dx, y + baseline)),
            Drawn::Upwards(dx, bottom, run) => {
                // A quarter of a turn to the left, around where the words begin.
                surface.push_transform(&Transform::from_row(0.0, -1.0, 1.0, 0.0, x + dx, y + bottom));
                self.signs(surface, run, Point::from_xy(0.0, 0.0));
                surface.pop();
            }
            Drawn::Image(dx, dy, width, height, image) => {
                if let Some(size) = Size::from_wh(*width, *height) {
                    surface.push_transform(&Transform::from_translate(x + dx, y + dy));
                    surface.draw_image(image.clone(), size);
                    surface.pop();
                }
            }
            Drawn::Link(..) => {}
            Drawn::Rect(dx, dy, width, height, ink) => {
                let rect = Rect::from_xywh(x + dx, y + dy, *width, *height);
                let mut path = PathBuilder::new();
                if let Some(rect) = rect {
                    path.push_rect(rect);
                }
                if let Some(path) = path.finish() {
                    surface.set_stroke(None);
                    surface.set_fill(Some(filled(*ink)));
                    surface.draw_path(&path);
                }
            }
            Drawn::Path(stretches, fill, pen) => {
                let mut path = PathBuilder::new();
                for stretch in stretches {
                    match *stretch {
                        Stretch::Move(a, b) => path.move_to(x + a, y + b),
                        Stretch::Line(a, b) => path.line_to(x + a, y + b),
                        Stretch::Curve(a, b, c, d, e, f) => path.cubic_to(x + a, y + b, x + c, y + d, x + e, y + f),
                        Stretch::Close => path.close(),
                    }
                }
                if let Some(path) = path.finish() {
                    surface.set_fill(fill.map(filled));
                    surface.set_stroke(pen.map(stroked));
                    surface.draw_path(&path);
                }
            }
        }
    }
}

/// `--mark` of the pages: `#0a5566`.
pub(super) const MARK: (u8, u8, u8) = (0x0a, 0x55, 0x66);

fn colour(ink: Ink) -> Paint {
    match ink {
        Ink::Shade(shade) => luma::Color::new(shade).into(),
        Ink::Mark => rgb::Color::new(MARK.0, MARK.1, MARK.2).into(),
    }
}

fn filled(ink: Ink) -> Fill {
    Fill { paint: colour(ink), opacity: NormalizedF32::ONE, rule: krilla::paint::FillRule::NonZero }
}

fn stroked(pen: Pen) -> Stroke {
    Stroke {
        paint: colour(pen.ink),
        width: pen.width,
        line_cap: if pen.dash.is_some() { LineCap::Round } else { LineCap::Butt },
        dash: pen.dash.map(|(on, off)| StrokeDash { array: vec![on, off], offset: 0.0 }),
        ..Stroke::default()
    }
}
