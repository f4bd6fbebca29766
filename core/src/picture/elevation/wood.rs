//! Wood and what was in the wall before cable: plates, studs, headers, openings, keep-outs, power.

use super::{BOARD, View};
use crate::framing::StudKind;
use crate::picture::hatch::hatching;
use crate::picture::labels::{Label, Run};
use crate::picture::walls::reach;
use crate::picture::{About, Ink, Item, Shape};
use crate::plan::{KeepOutShape, PowerPlace};

impl View<'_> {
    pub(super) fn wood(&mut self) {
        let frame = self.frame;
        let ends = (frame.start, frame.end);
        for board in 0..self.wall.bottom_plates {
            let low = f64::from(board) * BOARD;
            for (from, to) in self.between_doors() {
                self.rectangle(Ink::Plate, (from, to), (low, low + BOARD));
            }
        }
        for board in 0..self.wall.top_plates {
            let low = frame.top + f64::from(board) * BOARD;
            self.rectangle(Ink::Plate, ends, (low, low + BOARD));
        }
        for stud in &frame.studs {
            let ink = match stud.kind {
                StudKind::Cripple => Ink::Cripple,
                _ => Ink::Stud,
            };
            self.rectangle(ink, (stud.from, stud.to), (stud.bottom, stud.top));
        }
        for header in &frame.headers {
            let (near, far) = (header.from, header.to);
            self.rectangle(Ink::Header, (near, far), (header.bottom, header.top));
            for (a, b) in [(near, far), (far, near)] {
                let line = vec![self.at(a, header.bottom), self.at(b, header.top)];
                self.picture
                    .push(Item::plain(Ink::Header, Shape::Line(line)));
            }
        }
    }

    /// The stretches of the bottom plates that doors leave.
    fn between_doors(&self) -> Vec<(f64, f64)> {
        let mut stretches = Vec::new();
        let mut at = self.frame.start;
        for opening in self.level.openings_of(self.wall.id) {
            let (near, far) = reach(opening);
            if opening.sill.f64() < BOARD {
                stretches.push((at, near));
                at = far;
            }
        }
        stretches.push((at, self.frame.end));
        stretches.retain(|(from, to)| to > from);
        stretches
    }

    pub(super) fn openings(&mut self) {
        for opening in self.level.openings_of(self.wall.id) {
            let (near, far) = reach(opening);
            let (sill, head) = (opening.sill.f64(), opening.head.f64());
            let about = About::Opening(opening.id);
            if sill > BOARD {
                self.rectangle(Ink::Header, (near, far), (sill - BOARD, sill));
            }
            let middle = self.at((near + far) / 2.0, (sill + head) / 2.0);
            self.labels.push(Label {
                anchors: vec![middle],
                clear: 0.0,
                forms: vec![vec![Run::plain(opening.kind.name(), self.sizes.body)]],
                reach: 0.0,
                centred: true,
                ink: Ink::Note,
                about: Some(about),
                faint: false,
                paper: false,
            });
        }
    }

    pub(super) fn keep_outs(&mut self) {
        for keep_out in &self.level.keep_outs {
            let KeepOutShape::Stretch { wall, from, to } = keep_out.shape else {
                continue;
            };
            if wall != self.wall.id {
                continue;
            }
            let (low, high) = (
                keep_out.bottom.f64().max(0.0),
                keep_out.top.f64().min(self.frame.height),
            );
            let corners = [
                self.at(from.f64(), low),
                self.at(to.f64(), low),
                self.at(to.f64(), high),
                self.at(from.f64(), high),
            ];
            let about = About::KeepOut(keep_out.id);
            for (a, b) in hatching(&corners, 2.2 * self.picture.scale) {
                let line = Shape::Line(vec![a, b]);
                self.picture
                    .push(Item::about(Ink::KeepOut, line, about, ""));
            }
            self.label(
                (corners[0] + corners[2]) * 0.5,
                0.0,
                vec![vec![Run::plain(keep_out.reason.name(), self.sizes.body)]],
                Ink::KeepOutName,
                about,
            );
        }
    }

    pub(super) fn power(&mut self) {
        for run in &self.level.power_runs {
            let PowerPlace::Wall {
                wall,
                from,
                to,
                height,
            } = run.place
            else {
                continue;
            };
            if wall != self.wall.id {
                continue;
            }
            let height_at = height.f64();
            let ends = if from == to {
                [self.at(from.f64(), 0.0), self.at(from.f64(), height_at)]
            } else {
                [self.at(from.f64(), height_at), self.at(to.f64(), height_at)]
            };
            let about = About::PowerRun(run.id);
            let line = Shape::Line(ends.to_vec());
            self.picture
                .push(Item::about(Ink::Power, line, about, "Power by others"));
            self.obstacles
                .add_chain(&ends.map(|at| self.paper(at)), 0.4);
            let words = format!("power, {} AFF (by others)", self.plan.units.height(height));
            self.label(
                (ends[0] + ends[1]) * 0.5,
                0.4,
                vec![vec![Run::plain(words, self.sizes.body)]],
                Ink::PowerName,
                about,
            );
        }
    }
}
