//! Drops and the closet in a level's plan: where their symbols stand and what is written beside them.

use std::collections::BTreeMap;

use super::{LevelSheet, Stress};
use crate::picture::labels::{ANYWHERE, Label, Run};
use crate::picture::obstacles::{Obstacles, Rect};
use crate::picture::{About, Ink, symbols};
use crate::plan::{Drop, DropKind, LevelId, Plan};
use crate::units::Mm;

impl LevelSheet<'_> {
    /// Finds every drop's symbol its place before anything is written.
    pub(super) fn stand_drops(&mut self) -> Vec<(usize, symbols::Spot)> {
        let here = self.plan.drops.iter().enumerate();
        let here = here.filter(|(_, drop)| drop.level == self.level.id && self.is_shown(drop));
        let mut taken = Obstacles::default();
        for wall in &self.level.walls {
            if let Some(line) = wall.line() {
                let half = (wall.width().0 / 2.0 / self.picture.scale - 0.2).max(0.0);
                taken.add_chain(&self.paper(&[line.from, line.to]), half);
            }
        }
        if let Some(spot) = self.closet_spot() {
            taken.add_box(self.symbol_room(spot));
        }
        let (sizes, scale) = (self.showing.sizes, self.picture.scale);
        here.filter_map(|(place, drop)| {
            let spot = symbols::stand(self.plan, drop, sizes, scale, &mut taken)?;
            Some((place, spot))
        })
        .collect()
    }

    fn is_shown(&self, drop: &Drop) -> bool {
        symbols::drop_place(self.plan, drop).is_some_and(|at| self.showing.shows(at))
    }

    fn closet_spot(&self) -> Option<symbols::Spot> {
        let closet = self.plan.closet.filter(|c| c.level == self.level.id)?;
        let scale = self.picture.scale;
        let spot = symbols::closet_spot(self.plan, &closet, self.showing.sizes, scale)?;
        self.showing.shows(spot.foot).then_some(spot)
    }

    /// What a symbol covers, paper millimetres.
    fn symbol_room(&self, spot: symbols::Spot) -> Rect {
        let reach = symbols::reach(self.showing.sizes);
        Rect::around(
            spot.at * (1.0 / self.picture.scale),
            2.0 * reach,
            2.0 * reach,
        )
    }

    pub(super) fn closet(&mut self, faint: bool) {
        let Some(spot) = self.closet_spot() else {
            return;
        };
        symbols::draw_closet(&mut self.picture, spot, self.showing.sizes, faint);
        self.obstacles.add_box(self.symbol_room(spot));
        self.first.push(Label {
            anchors: vec![spot.at],
            clear: symbols::reach(self.showing.sizes) + 0.2,
            forms: vec![vec![Run::bold("closet", self.showing.sizes.body)]],
            reach: ANYWHERE,
            centred: false,
            ink: Ink::DropName,
            about: Some(About::Closet),
            faint,
            paper: false,
        });
    }

    pub(super) fn drops(&mut self, drops: &[(usize, symbols::Spot)], faint: bool) {
        let sizes = self.showing.sizes;
        let usual = usual_heights(self.plan, self.level.id);
        for (_, spot) in drops {
            symbols::draw_stem(&mut self.picture, *spot, sizes, faint);
        }
        for (place, spot) in drops {
            let Some(drop) = self.plan.drops.get(*place) else {
                continue;
            };
            let is_done = self.is_done(drop);
            let faint = faint || is_done;
            symbols::draw(&mut self.picture, drop, *spot, sizes, faint);
            self.obstacles.add_box(self.symbol_room(*spot));
            if matches!(self.showing.stress, Stress::Site(_)) {
                symbols::draw_state(&mut self.picture, drop, *spot, sizes, is_done);
            }
            self.first.push(Label {
                anchors: vec![spot.at],
                clear: symbols::reach(sizes) * self.symbol_grows() + 0.1,
                forms: self.drop_forms(drop, &usual),
                reach: ANYWHERE,
                centred: false,
                ink: Ink::DropName,
                about: Some(About::Drop(drop.id)),
                faint,
                paper: false,
            });
        }
    }

    /// How much wider a symbol is than by itself: on site a box to tick stands around it.
    fn symbol_grows(&self) -> f64 {
        match self.showing.stress {
            Stress::Site(_) => 1.25,
            _ => 1.0,
        }
    }

    /// "D8", and beside it what is unusual: its height, more cables than its symbol shows.
    fn drop_forms(&self, drop: &Drop, usual: &BTreeMap<DropKind, Mm>) -> Vec<Vec<Run>> {
        let sizes = self.showing.sizes;
        let name = Run::bold(drop.label(), sizes.id);
        let mut notes: Vec<String> = Vec::new();
        if drop.kind != DropKind::Data && drop.cables.len() > 1 {
            notes.push(format!("×{}", drop.cables.len()));
        }
        let height = drop.height().filter(|h| usual.get(&drop.kind) != Some(h));
        notes.extend(height.map(|height| self.plan.units.height(height)));
        if drop.spare {
            notes.push(String::from("spare"));
        }
        match notes.is_empty() {
            true => vec![vec![name]],
            false => vec![vec![name, Run::plain(notes.join(" "), sizes.body)]],
        }
    }
}

/// The height most drops of each kind have on a level; the lowest of those equally frequent.
pub fn usual_heights(plan: &Plan, level: LevelId) -> BTreeMap<DropKind, Mm> {
    let mut counts: BTreeMap<DropKind, BTreeMap<Mm, usize>> = BTreeMap::new();
    for drop in plan.drops.iter().filter(|drop| drop.level == level) {
        if let Some(height) = drop.height() {
            *counts
                .entry(drop.kind)
                .or_default()
                .entry(height)
                .or_default() += 1;
        }
    }
    let most = |heights: BTreeMap<Mm, usize>| {
        let most = heights
            .into_iter()
            .max_by_key(|(height, count)| (*count, -*height));
        most.map(|(height, _)| height)
    };
    counts
        .into_iter()
        .filter_map(|(kind, heights)| Some((kind, most(heights)?)))
        .collect()
}
