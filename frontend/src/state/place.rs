//! Which job of this device lies on the table, and how another comes to it.

use std::rc::Rc;

use borewright_core::desk::{Intent, Notice, Session};
use borewright_core::file::job::{Job, Journal};
use borewright_core::plan::Plan;

use super::{Desk, Keeping};
use crate::browser::locks::Lock;

/// Which job of this device lies on the table.
#[derive(Clone, Debug, Default)]
pub enum Place {
    /// None yet: an example, an empty sheet, what came by link or by file.
    #[default]
    Loose,
    /// One that this window alone may change.
    Job(Rc<str>, Rc<Lock>),
    /// One that is open in another window; here it is only looked at.
    Elsewhere(Rc<str>),
}

impl Place {
    /// What holds the job's name for this window.
    pub fn lock(&self) -> Option<&Rc<Lock>> {
        match self {
            Self::Job(_, lock) => Some(lock),
            Self::Loose | Self::Elsewhere(_) => None,
        }
    }

    /// The device's name for the job.
    pub fn id(&self) -> Option<&Rc<str>> {
        match self {
            Self::Loose => None,
            Self::Job(id, _) | Self::Elsewhere(id) => Some(id),
        }
    }
}

impl PartialEq for Place {
    fn eq(&self, other: &Self) -> bool {
        let watched = |place: &Self| matches!(place, Self::Elsewhere(_));
        self.id() == other.id() && watched(self) == watched(other)
    }
}

/// What comes to the table in place of what lies on it.
#[derive(Clone)]
pub struct Begun {
    /// The plan and the hands on it.
    pub session: Session,
    /// Which job it is.
    pub place: Place,
    /// What this device has of it.
    pub journal: Journal,
    /// It becomes a job of this device even if nobody changes it.
    pub keeps: bool,
}

impl Begun {
    /// A plan that is no job until somebody changes it.
    pub fn loose(session: Session) -> Self {
        Self {
            session,
            place: Place::Loose,
            journal: Journal::default(),
            keeps: false,
        }
    }

    /// A plan that becomes another job at once.
    pub fn another(session: Session) -> Self {
        Self {
            keeps: true,
            ..Self::loose(session)
        }
    }

    /// A job of this device with its history, on a desk with its plan.
    pub fn job(job: Job, mut session: Session, place: Place) -> Self {
        session.history = job.history;
        session.read_only = matches!(place, Place::Elsewhere(_));
        Self {
            session,
            place,
            journal: job.journal,
            keeps: false,
        }
    }
}

impl Desk {
    /// Whether what lies on the table is to be on this device as it stands.
    pub fn is_to_be_kept(&self) -> bool {
        match self.place {
            _ if self.session.read_only || self.opening => false,
            Place::Job(..) => true,
            Place::Elsewhere(_) => false,
            Place::Loose => self.keeps || !Rc::ptr_eq(&self.session.plan, &self.begun),
        }
    }

    /// What is in this window alone makes room only when the person agrees.
    pub(super) fn come(&mut self, begun: Begun) {
        match matches!(self.keeping, Keeping::Failed(_)) && self.is_to_be_kept() {
            true => self.waits = Some(Rc::new(begun)),
            false => self.begin(begun),
        }
    }

    pub(super) fn displace(&mut self, agreed: bool) {
        let waits = self.waits.take().filter(|_| agreed);
        if let Some(begun) = waits {
            self.begin((*begun).clone());
        }
    }

    fn begin(&mut self, begun: Begun) {
        self.keeping = match begun.place {
            Place::Loose => Keeping::Nothing,
            _ => Keeping::Kept,
        };
        self.begun = begun.session.plan.clone();
        self.session = begun.session;
        self.place = begun.place;
        self.journal = Rc::new(begun.journal);
        self.keeps = begun.keeps;
        self.jobs = false;
        self.ended = None;
        self.opening = false;
        self.open = None;
        self.job += 1;
        self.reading = false;
        self.left_out.clear();
        self.stack = None;
        self.arrived();
        self.show_all();
    }

    /// Another moment of the job on the table, which stays as it is looked at.
    pub(super) fn follow(&mut self, begun: Begun) {
        if self.place.id() != begun.place.id() || !self.session.read_only {
            return;
        }
        let before = std::mem::replace(&mut self.session, begun.session);
        let same = [
            Intent::GoTo(before.step),
            Intent::ShowLevel(before.level),
            Intent::Choose(before.chosen),
        ];
        for intent in same {
            self.session = self.session.after(&intent);
        }
        self.begun = Rc::clone(&self.session.plan);
        self.place = begun.place;
        self.journal = Rc::new(begun.journal);
        self.keeping = Keeping::Kept;
        self.job += 1;
    }

    pub(super) fn hand_on(&mut self) {
        if matches!(self.keeping, Keeping::Failed(_)) {
            // What only this window has would be gone with the right to write it.
            let text = "Another window asks for this job. Save it to a file here first: this device does not keep it.";
            self.session.notice = Some(Notice::refused(text, None));
            return;
        }
        if let Place::Job(id, _) = &self.place {
            self.place = Place::Elsewhere(Rc::clone(id));
            self.session.read_only = true;
            self.session = self.session.after(&Intent::GoTo(self.session.step));
            let text = "This job is changed in another window now.";
            self.session.notice = Some(Notice::done(text));
        }
    }

    pub(super) fn make_point(&mut self, name: &str) {
        if self.numbers_hold() {
            self.want(&Intent::KeepNumbers);
        }
        let name = format!("{name}, revision {}", self.session.plan.revision);
        self.point = (self.point.0 + 1, name);
    }

    /// What was looked at becomes a job of its own.
    pub(super) fn taken_over(&mut self) {
        self.place = Place::Loose;
        self.journal = Rc::default();
        self.keeps = true;
        self.job += 1;
    }

    pub(super) fn kept_now(&mut self, plan: &Rc<Plan>) {
        if Rc::ptr_eq(plan, &self.session.plan) {
            self.keeping = Keeping::Kept;
        }
    }
}
