//! Bores round corners: each cut across at its height and seen from above, to scale, with what a tape and a
//! square need to drill it from both bays.

use super::frame::{self, Heading};
use super::mark::Laid;
use super::paper::{Area, Extent, Lie, Scale};
use super::share::Stapled;
use super::table::{BODY, ID, text};
use super::{Draft, Kind, Paper};
use crate::bore::{Corner, DrillRow, Half, Lie as Lying};
use crate::design::Design;
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Picture, Type, corner};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::tongue::Tongue;
use crate::units::{Mm, Units};

/// Distance between lines of words.
const LEADING: f64 = BODY * 1.2;
/// Space between corners, across and down.
const GAP: (f64, f64) = (6.0, 7.0);
/// No corner with its words is lower than this.
const LOWEST: f64 = 50.0;
/// As many corners stand beside each other as are at least this wide.
const NARROWEST: f64 = 76.0;

/// Puts the corners where they leave the least free of a page of a stack that has room for all, else on pages of
/// their own at `at`; nothing where no cable goes round one.
pub(super) fn onto(stapled: &mut Stapled, at: usize, design: &Design, paper: &Paper) {
    let corners = corners(design);
    if corners.is_empty() {
        return;
    }
    let plan = stapled.plan;
    let heading = heading(paper.tongue);
    let rows = |area: Area| Rows::of((plan, design), &corners, area, paper.tongue);
    let mut tightest: Option<(f64, usize, Area, Rows)> = None;
    for place in 0..stapled.drafts.len() {
        let areas = stapled.room_on(place, &heading).into_iter();
        let areas = areas.filter(|area| area.height() > LOWEST && area.width() >= NARROWEST);
        for area in areas {
            let shared = rows(area);
            let left = (area.height() - shared.height()) * area.width();
            let is_tighter = tightest.as_ref().is_none_or(|(least, ..)| left < *least);
            if shared.height() <= area.height() && is_tighter {
                tightest = Some((left, place, area, shared));
            }
        }
    }
    if let Some((_, place, area, shared)) = tightest {
        let layers = shared.pages().pop().unwrap_or_default();
        return stapled.put_on(place, &heading, area, layers);
    }
    let extent = paper.extent(Lie::Portrait);
    let own = rows(frame::body(plan, extent, &heading));
    let drafts = own.pages().into_iter();
    let drafts = drafts.map(|layers| draft(extent, &heading, layers));
    stapled.insert(at, drafts);
}

/// Corners side by side, row under row.
struct Rows {
    area: Area,
    /// Width of a corner.
    width: f64,
    rows: Vec<Vec<Cell>>,
}

impl Rows {
    fn of(
        (plan, design): (&Plan, &Design),
        corners: &[(Corner, Vec<&DrillRow>)],
        area: Area,
        tongue: Tongue,
    ) -> Self {
        let columns = ((area.width() + GAP.0) / (NARROWEST + GAP.0))
            .floor()
            .max(1.0);
        let width = (area.width() + GAP.0) / columns - GAP.0;
        let room = (width, area.height());
        let mut cells = corners
            .iter()
            .map(|(corner, rows)| cell(plan, design, (corner, rows), room, tongue));
        let mut rows = Vec::new();
        loop {
            let row: Vec<Cell> = cells.by_ref().take(columns as usize).collect();
            if row.is_empty() {
                return Self { area, width, rows };
            }
            rows.push(row);
        }
    }

    /// How tall they are together.
    fn height(&self) -> f64 {
        let heights = self.rows.iter().map(|row| tallest(row) + GAP.1);
        heights.sum::<f64>() - GAP.1
    }

    /// The marks of every page, all of them as large as the area.
    fn pages(&self) -> Vec<Vec<Laid>> {
        let mut pages = Vec::new();
        let mut page: Vec<Laid> = Vec::new();
        let mut top = self.area.low.y;
        for row in &self.rows {
            let height = tallest(row);
            if top + height > self.area.high.y && !page.is_empty() {
                pages.push(std::mem::take(&mut page));
                top = self.area.low.y;
            }
            for (place, cell) in row.iter().enumerate() {
                let left = self.area.low.x + place as f64 * (self.width + GAP.0);
                page.extend(cell.at(Pos::new(left, top)));
            }
            top += height + GAP.1;
        }
        pages.push(page);
        pages
    }
}

fn tallest(row: &[Cell]) -> f64 {
    row.iter().map(|cell| cell.height).fold(0.0, f64::max)
}

fn heading(tongue: Tongue) -> Heading {
    let heading = Heading {
        kind: Kind::Corners,
        title: String::from("Bores round corners"),
        subtitle: String::from(
            "Seen from above. Bore from both bays, centred in the studs, until the two meet.",
        ),
        name: String::from("Bores round corners"),
        corner: String::from("Corners"),
        tongue,
    };
    heading.said()
}

fn draft(extent: Extent, heading: &Heading, layers: Vec<Laid>) -> Draft {
    Draft {
        heading: heading.clone(),
        extent,
        layers,
        scale: None,
        goes_on: false,
    }
}

/// Every corner that is bored, with its rows of the drill list: several where its bundle is split.
fn corners(design: &Design) -> Vec<(Corner, Vec<&DrillRow>)> {
    let mut found: Vec<(usize, Corner, Vec<&DrillRow>)> = Vec::new();
    for row in &design.drill_list {
        let bores = row.bores.iter().filter_map(|bore| design.bores.get(*bore));
        for bore in bores {
            let crossing = bore.crossing;
            if let Some((.., rows)) = found.iter_mut().find(|(of, ..)| *of == crossing) {
                rows.push(row);
                continue;
            }
            let corner = Corner::of(&design.framing, &design.ways, crossing);
            found.extend(corner.map(|corner| (crossing, corner, vec![row])));
        }
    }
    found
        .into_iter()
        .map(|(_, corner, rows)| (corner, rows))
        .collect()
}

/// One corner with its words, from (0, 0).
struct Cell {
    layers: Vec<Laid>,
    /// Of its drawing.
    width: f64,
    height: f64,
}

impl Cell {
    fn at(&self, corner: Pos) -> impl Iterator<Item = Laid> + '_ {
        self.layers.iter().map(move |laid| Laid {
            picture: laid.picture.clone(),
            origin: laid.origin + corner,
        })
    }
}

fn cell(
    plan: &Plan,
    design: &Design,
    of: (&Corner, &[&DrillRow]),
    (width, height): (f64, f64),
    tongue: Tongue,
) -> Cell {
    let [largest, middle, smallest] = scales(plan.units);
    let at = |scale: Scale| cell_at(plan, design, of, (width, scale), tongue);
    let fits = |cell: &Cell| cell.width <= width && cell.height <= height;
    let larger = [largest, middle].into_iter().map(at).find(fits);
    larger.unwrap_or_else(|| at(smallest))
}

fn cell_at(
    plan: &Plan,
    design: &Design,
    (of, rows): (&Corner, &[&DrillRow]),
    (width, scale): (f64, Scale),
    tongue: Tongue,
) -> Cell {
    let mut words = Picture::at_scale(1.0);
    let mut y = 0.0;
    let mut write = |y: f64, size, weight, line: &str| {
        words.push(text(Pos::new(0.0, y), Anchor::Start, size, weight, line));
    };
    for row in rows {
        let bit = plan.units.size(row.bit);
        let title = format!("Bore {} · {bit} bit · {}", row.number, row.height);
        for line in font::wrap(&tongue.say(&title), Weight::Bold, ID, width) {
            y += ID * 1.15;
            write(y, ID, Weight::Bold, &line);
        }
    }
    let picture = drawn(plan, design, of, rows, scale);
    let (low, high) = on_paper(&picture);
    let top = y + 3.0;
    let beside = (width - (high.x - low.x)).max(0.0) / 2.0;
    let origin = Pos::new(beside - low.x, top - low.y);
    y = top + (high.y - low.y) + 1.0;
    for line in notes(plan, design, of, &scale) {
        for line in font::wrap(&tongue.say(&line), Weight::Regular, BODY, width) {
            y += LEADING;
            write(y, BODY, Weight::Regular, &line);
        }
    }
    let words = Laid {
        picture: words,
        origin: Pos::default(),
    };
    Cell {
        layers: vec![words, Laid { picture, origin }],
        width: high.x - low.x,
        height: y + 1.5,
    }
}

/// The corner with its widest bit.
fn drawn(plan: &Plan, design: &Design, of: &Corner, rows: &[&DrillRow], scale: Scale) -> Picture {
    let bore = rows.first().and_then(|row| row.bores.first());
    let bore = bore.and_then(|bore| design.bores.get(*bore));
    let height = bore.map_or(0.0, |bore| bore.height);
    let widest = rows.iter().max_by(|a, b| a.bit.0.total_cmp(&b.bit.0));
    let bit = widest.map(|row| row.bit).unwrap_or_default();
    corner(plan, design, of, (bit, height), scale.ratio, Type::PAPER)
}

/// What a picture takes up, paper millimetres.
fn on_paper(picture: &Picture) -> (Pos, Pos) {
    let (low, high) = picture.bounds().unwrap_or_default();
    let part = 1.0 / picture.scale;
    (low * part, high * part)
}

/// The scales of a detail, the largest first.
fn scales(units: Units) -> [Scale; 3] {
    let scale = |ratio, name| Scale { ratio, name };
    match units {
        Units::Imperial => [
            scale(4.0, "3 in = 1 ft"),
            scale(8.0, "1-1/2 in = 1 ft"),
            scale(16.0, "3/4 in = 1 ft"),
        ],
        Units::Metric => [scale(5.0, "1:5"), scale(10.0, "1:10"), scale(20.0, "1:20")],
    }
}

fn notes(plan: &Plan, design: &Design, of: &Corner, scale: &Scale) -> Vec<String> {
    let half = |half: &Half| {
        let studs = match half.uprights.len() {
            0 => String::from("no stud"),
            1 => String::from("1 stud"),
            count => format!("{count} studs"),
        };
        format!(
            "{}: {} deep, {studs}.",
            half.words(&design.framing),
            plan.units.position(Mm::rounded(half.depth))
        )
    };
    let mut said: Vec<String> = of.halves.iter().map(half).collect();
    said.push(format!("{} {}.", lie_words(plan.units, of.lie), scale.name));
    said
}

/// How the two halves lie to one another.
fn lie_words(units: Units, lie: Lying) -> String {
    match lie {
        Lying::Square => String::from("The two are square to each other."),
        Lying::Straight => String::from("The two are in one line."),
        Lying::Askew { share, wider } => {
            let (run, on) = match units {
                Units::Imperial => (304.8, "1 ft"),
                Units::Metric => (1000.0, "1 m"),
            };
            let off = units.position(Mm::rounded(share * run));
            let way = if wider { "wider" } else { "narrower" };
            format!("The two are {off} on {on} {way} than square.")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::route::Member;
    use crate::sheet::Size;
    use crate::sheet::mark::Mark;

    fn pages(plan: &Plan, design: &Design, size: Size) -> Vec<Draft> {
        let mut stapled = Stapled::none(plan);
        onto(&mut stapled, 0, design, &Paper::of(size));
        stapled.drafts
    }

    fn titles(drafts: &[Draft]) -> Vec<String> {
        let marks = drafts
            .iter()
            .flat_map(|draft| draft.layers.iter().flat_map(Laid::marks));
        let titles = marks.filter_map(|mark| match mark {
            Mark::Text { text, .. } if text.starts_with("Bore ") => Some(text),
            _ => None,
        });
        titles.collect()
    }

    #[test]
    fn every_corner_that_is_bored_stands_once_and_only_there() {
        let demo = include_bytes!("../../../static/demo/two-storeys.json");
        let plan = crate::file::read(demo).unwrap().plan;
        let design = Design::of(&plan);
        let rows = design.drill_list.iter().filter(|row| {
            let bore = &design.bores[row.bores[0]];
            matches!(
                design.ways.crossings[bore.crossing].member,
                Member::Corner { .. }
            )
        });
        let expected = rows.map(|row| format!("Bore {} ", row.number));
        let expected: Vec<String> = expected.collect();
        for size in Size::ALL {
            let found = titles(&pages(&plan, &design, size));
            assert_eq!(found.len(), expected.len(), "{found:?}");
            let stands = |title: &String| found.iter().any(|found| found.starts_with(title));
            assert!(expected.iter().all(stands), "{found:?}");
            assert!(!found.iter().any(|title| title.ends_with('…')), "{found:?}");
        }
        assert!(!expected.is_empty());
    }

    #[test]
    fn a_plan_without_corners_has_no_such_page() {
        let plan = Plan::new();
        let design = Design::of(&plan);
        assert!(pages(&plan, &design, Size::Letter).is_empty());
    }

    #[test]
    fn how_two_lines_lie_is_told_by_a_builders_measure() {
        let askew = Lying::Askew {
            share: 0.25,
            wider: true,
        };
        assert_eq!(
            lie_words(Units::Imperial, askew),
            "The two are 3\" on 1 ft wider than square."
        );
        assert_eq!(
            lie_words(Units::Metric, Lying::Square),
            "The two are square to each other."
        );
    }
}
