//! Cable in a wall: ways, the closet, boxes, and bores with their words.

use super::{BEYOND, Measured, SMALLEST, View};
use crate::bore::{Bore, DrillRow};
use crate::picture::labels::{ANYWHERE, Label, Run};
use crate::picture::obstacles::Rect;
use crate::picture::trunks::{Layer, Leg, Stretch, shared, without_spurs};
use crate::picture::{About, CABLE_STYLES, Ink, Item, Shape, symbols, trunk_width};
use crate::plan::{ClosetPlace, Place};
use crate::route::{Member, Move, MoveKind, Place3};
use crate::schedule::corners_of;
use crate::shape::Pos;

impl View<'_> {
    pub(super) fn cables(&mut self) {
        let floor = self
            .design
            .framing
            .level(self.level.id)
            .map_or(0.0, |l| l.floor);
        let mut runs = Vec::new();
        for way in &self.design.ways.ways {
            let here = way.moves.iter().filter(|step| self.is_here(step));
            let legs = without_spurs(here.flat_map(|step| self.pieces(step, floor)).collect());
            let legs = legs.into_iter();
            runs.extend(legs.map(|(layer, from, to)| (layer, from, to, way.cable)));
        }
        let stretches = shared(runs);
        for stretch in &stretches {
            let casing = Ink::Casing(stretch.cables.len().min(999) as u16);
            let line = Shape::Line(stretch.points.clone());
            self.picture.push(Item::plain(casing, line));
        }
        for stretch in &stretches {
            self.stretch(stretch);
        }
    }

    fn is_here(&self, step: &Move) -> bool {
        let here = self.wall.id;
        match step.kind {
            MoveKind::InBay { wall, .. }
            | MoveKind::AlongWall { wall }
            | MoveKind::ThroughTopPlates { wall, .. }
            | MoveKind::ThroughBottomPlates { wall, .. }
            | MoveKind::OnFace { wall }
            | MoveKind::Outside { wall, .. } => wall == here,
            MoveKind::IntoWall { from, to } => from == here || to == here,
            _ => false,
        }
    }

    /// A move as upright and level pieces on the wall, no farther out than a little.
    fn pieces(&self, step: &Move, floor: f64) -> Vec<Leg> {
        let place = |place: &Place3| {
            let offset = self.frame.line.offset_of(place.at);
            let offset = offset.clamp(self.frame.start - BEYOND, self.frame.end + BEYOND);
            let height = (place.z - floor).clamp(-BEYOND, self.frame.height + BEYOND);
            self.at(offset, height)
        };
        let (from, to) = (place(&step.from), place(&step.to));
        // A cable leaves its box upright and turns at the lane.
        let elbow = match step.kind {
            MoveKind::IntoWall { .. } => Pos::new(to.x, from.y),
            _ => Pos::new(from.x, to.y),
        };
        vec![(Layer::Wall, from, elbow), (Layer::Wall, elbow, to)]
    }

    fn stretch(&mut self, stretch: &Stretch) {
        let count = stretch.cables.len().min(999) as u16;
        let ink = match stretch.cables.as_slice() {
            [cable] => {
                let kind = self.plan.cable(*cable).map_or(0, |(_, cable)| cable.kind.0);
                Ink::Cable((kind % u16::from(CABLE_STYLES)) as u8)
            }
            _ => Ink::Trunk(count),
        };
        let line = Shape::Line(stretch.points.clone());
        self.picture.push(Item::plain(ink, line));
        let paper: Vec<Pos> = stretch.points.iter().map(|at| self.paper(*at)).collect();
        self.obstacles.add_chain(&paper, trunk_width(count) / 2.0);
    }

    pub(super) fn closet(&mut self) {
        let closet = self
            .plan
            .closet
            .filter(|closet| closet.on_wall() == Some(self.wall.id));
        let Some((closet, ClosetPlace::Wall { offset, side, .. })) = closet.map(|c| (c, c.place))
        else {
            return;
        };
        let spot = symbols::Spot {
            at: self.at(offset.f64(), closet.panel_height.f64()),
            foot: Pos::default(),
            out: None,
        };
        symbols::draw_closet(&mut self.picture, spot, self.sizes, false);
        let reach = symbols::reach(self.sizes);
        let room = Rect::around(self.paper(spot.at), 2.0 * reach, 2.0 * reach);
        self.obstacles.add_box(room);
        let height = self.plan.units.height(closet.panel_height);
        let behind = if side == self.from {
            ""
        } else {
            ", other side"
        };
        let words = format!("closet, {height}{behind}");
        let forms = vec![vec![Run::bold(words, self.sizes.body)]];
        self.dimensions.push(Measured {
            offset: offset.f64(),
            corners: None,
            name: self.tongue.say("closet"),
        });
        self.label(spot.at, reach + 0.2, forms, Ink::DropName, About::Closet);
    }

    pub(super) fn boxes(&mut self) {
        for drop in &self.plan.drops {
            let (wall, offset, height, behind) = match drop.place {
                Place::Wall {
                    wall,
                    offset,
                    side,
                    height,
                } => (wall, offset, height, side != self.from),
                Place::Outside {
                    wall,
                    offset,
                    side,
                    height,
                } => (wall, offset, height, side != self.from),
                _ => continue,
            };
            if wall != self.wall.id {
                continue;
            }
            let (wide, tall) = drop.outline();
            let (x, y) = (offset.f64(), height.f64());
            self.rectangle(
                Ink::Drop,
                (x - wide / 2.0, x + wide / 2.0),
                (y - tall / 2.0, y + tall / 2.0),
            );
            let at = self.at(x, y);
            let scale = self.picture.scale;
            let room = Rect::around(self.paper(at), wide / scale, tall / scale);
            self.obstacles.add_box(room);
            let mut words = self.plan.units.height(height);
            if behind {
                words.push_str(", other side");
            }
            // What it hangs on is seen here, and told in the room list.
            let name = Run::bold(drop.label(), self.sizes.id);
            let told = vec![name.clone(), Run::plain(words, self.sizes.body)];
            let forms = vec![told, vec![name]];
            let clear = tall / 2.0 / scale;
            self.label(at, clear, forms, Ink::DropName, About::Drop(drop.id));
            self.dimensions.push(Measured {
                offset: x,
                corners: corners_of(&self.design.framing, drop),
                name: drop.label(),
            });
        }
    }

    pub(super) fn bores(&mut self) {
        let rows = self
            .design
            .drill_list
            .iter()
            .filter(|row| row.wall == Some(self.wall.id));
        for row in rows {
            let bores: Vec<&Bore> = row
                .bores
                .iter()
                .filter_map(|bore| self.design.bores.get(*bore))
                .collect();
            let mut anchors: Vec<Pos> = bores
                .iter()
                .map(|bore| self.bore(bore, row.number))
                .collect();
            // Studs are counted; what is bored between them is measured.
            let is_counted = |bore: &Bore| {
                let crossing = self.design.ways.crossings.get(bore.crossing);
                crossing.is_some_and(|crossing| matches!(crossing.member, Member::Studs(_)))
            };
            if let Some(first) = bores.first().filter(|first| !is_counted(first)) {
                self.dimensions.push(Measured {
                    offset: first.offset,
                    corners: None,
                    name: row.number.to_string(),
                });
            }
            let middle = anchors.len() / 2;
            anchors.rotate_left(middle);
            let number = Run::bold(row.number.to_string(), self.sizes.id);
            let words = Run::plain(format!("· {}", self.bore_words(row)), self.sizes.body);
            self.labels.push(Label {
                anchors,
                clear: SMALLEST + 0.6,
                forms: vec![vec![number.clone(), words], vec![number]],
                reach: ANYWHERE,
                centred: false,
                ink: Ink::BoreName,
                about: Some(About::Bore(row.number)),
                faint: false,
                paper: false,
            });
        }
    }

    /// "1 in · 30 in AFF · steel": what goes through which wood is seen here.
    fn bore_words(&self, row: &DrillRow) -> String {
        let bit = self.plan.units.size(row.bit);
        let height = match row.height.as_str() {
            "" | "centred" | "mid-depth" => None,
            height => Some(height.to_string()),
        };
        let steel = (row.nail_plates > 0).then(|| String::from("steel"));
        let words = [Some(bit), height, steel];
        words.into_iter().flatten().collect::<Vec<_>>().join(" · ")
    }

    /// Draws a bore; a bore through plates lies in them.
    fn bore(&mut self, bore: &Bore, number: u32) -> Pos {
        let crossing = self.design.ways.crossings.get(bore.crossing);
        let height = match crossing.map(|crossing| &crossing.member) {
            Some(Member::TopPlates(_)) => (self.frame.top + self.frame.height) / 2.0,
            Some(Member::BottomPlates(_)) => self.frame.bottom / 2.0,
            _ => bore.height,
        };
        let at = self.at(bore.offset, height);
        let radius = (bore.bit.0 / 2.0).max(SMALLEST * self.picture.scale);
        let words = format!("Bore {number}, {}", self.plan.units.size(bore.bit));
        let dot = Shape::Circle { at, radius };
        self.picture
            .push(Item::about(Ink::BoreDot, dot, About::Bore(number), words));
        let paper = radius / self.picture.scale;
        self.obstacles
            .add_box(Rect::around(self.paper(at), 2.0 * paper, 2.0 * paper));
        at
    }
}
