//! Random notes from the site.

use super::dice::Dice;
use crate::plan::edit::Note;
use crate::plan::{BoxStage, CableStage, DropId, Mark, Plan, Test};

impl Dice {
    pub(super) fn note(&mut self, plan: &Plan) -> Note {
        let cable = self.some_cable(plan);
        let drop = self.of(&plan.drops).map_or(DropId(0), |drop| drop.id);
        let number = 1 + self.below(4) as u32;
        match self.below(14) {
            0..=3 => Note::Cable(cable, self.one(CableStage::ALL), self.date()),
            4 => Note::Length(cable, (!self.chance(4)).then(|| self.mm(0, 90_000))),
            5 => {
                let (date, fault) = (self.text(), self.text());
                Note::Test(cable, (!self.chance(4)).then_some(Test { date, fault }))
            }
            6 | 7 => Note::Box(drop, self.one(BoxStage::ALL), self.date()),
            8 => Note::BoxWords(drop, self.text()),
            9 => Note::AddPunch(self.chance(2).then_some(drop), self.text()),
            10 => Note::Punch(number, self.date()),
            11 => Note::RemovePunch(number),
            12 => Note::Photos(self.text()),
            _ => {
                let (date, who) = (self.text(), self.text());
                let mark = self.chance(2).then_some(Mark { date, who });
                match self.chance(2) {
                    true => Note::Inspected(mark),
                    false => Note::HandedOver(mark),
                }
            }
        }
    }

    fn date(&mut self) -> Option<String> {
        (!self.chance(4)).then(|| self.text())
    }
}
