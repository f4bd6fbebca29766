//! What holds whatever a person does: random intents, one after the other.

use std::rc::Rc;
use std::sync::Arc;

use proptest::prelude::*;

use super::trial::{REACH, Trial};
use super::*;
use crate::plan::edit::Edit;
use crate::plan::{
    CableId, DropId, DropKind, KeepOutId, LevelId, OpeningId, OpeningKind, Placing, PowerRunId,
    Role, RoomId, Scan, WallId,
};
use crate::shape::Point;
use crate::units::Mm;

/// Points near the walls of the test house, so that taps often hit something.
fn any_point() -> impl Strategy<Value = Point> {
    let near = prop::sample::select(vec![-150, 0, 40, 2000, 3000, 4000, 5960, 6000, 8000]);
    let free = -2000..10_000i32;
    let part = || prop_oneof![4 => near.clone(), 1 => free.clone()];
    (part(), part()).prop_map(|(x, y)| Point::new(x, y))
}

fn any_gesture() -> impl Strategy<Value = Gesture<Point>> {
    prop_oneof![
        2 => any_point().prop_map(Gesture::Hover),
        6 => any_point().prop_map(Gesture::Tap),
        1 => any_point().prop_map(Gesture::LongPress),
        1 => Just(Gesture::Left),
        1 => Just(Gesture::DragCancelled),
        3 => (any_point(), any_point()).prop_map(|(from, to)| Gesture::DragBegan { from, to }),
        2 => (any_point(), any_point()).prop_map(|(from, to)| Gesture::DragMoved { from, to }),
        3 => (any_point(), any_point()).prop_map(|(from, to)| Gesture::DragEnded { from, to }),
    ]
}

fn any_choice() -> impl Strategy<Value = Choice> {
    (0..11u8, 0..6u32).prop_map(|(kind, id)| match kind {
        0 => Choice::Drop(DropId(id)),
        1 => Choice::Closet,
        2 => Choice::Opening(OpeningId(id)),
        3 => Choice::Wall(WallId(id)),
        4 => Choice::Room(RoomId(id)),
        5 => Choice::KeepOut(KeepOutId(id)),
        6 => Choice::PowerRun(PowerRunId(id)),
        7 => Choice::Cable(CableId(id)),
        8 => Choice::Bore(id),
        9 => Choice::Level(LevelId(id)),
        _ => Choice::Drawing(LevelId(id)),
    })
}

fn any_hand() -> impl Strategy<Value = Hand> {
    let roles = prop::sample::select(vec![Role::Exterior, Role::Bearing, Role::Partition]);
    let drops = prop::sample::select(DropKind::ALL.to_vec());
    let openings = prop::sample::select(vec![
        OpeningKind::Door,
        OpeningKind::Window,
        OpeningKind::Cased,
    ]);
    (roles, drops, openings).prop_map(|(role, drop, opening)| Hand {
        drop,
        ..Hand::default().with_role(role).with_opening(opening)
    })
}

fn any_edit() -> impl Strategy<Value = Edit> {
    let scan = Arc::new(Scan {
        media_type: String::from("image/png"),
        width: 600,
        height: 400,
        bytes: vec![9; 9],
    });
    prop_oneof![
        Just(Edit::SetTitle("Birch Lane".into())),
        Just(Edit::SetTitle(String::new())),
        Just(Edit::SetUnits(crate::units::Units::Imperial)),
        Just(Edit::PutScan(
            LevelId(1),
            scan,
            Placing::default(),
            Vec::new()
        )),
        Just(Edit::RemoveScan(LevelId(1))),
        Just(Edit::AddLevel {
            name: "Upper".into(),
            floor: crate::plan::Floor::sawn(crate::shape::Direction::ALONG_X),
        }),
        (0..4u32).prop_map(|id| Edit::RemoveLevel(LevelId(id))),
        (0..8u32).prop_map(|id| Edit::RemoveWall(WallId(id))),
    ]
}

fn any_intent() -> impl Strategy<Value = Intent> {
    let reach = (1..600i32, any::<bool>()).prop_map(|(around, free)| Reach {
        around: Mm(around),
        free: free && around % 4 == 0,
    });
    let texts = prop::sample::select(vec!["", "12' 6", "2.5 m", "0", "nonsense", "Den", "-3"]);
    let texts = texts.prop_map(String::from);
    let headings = prop::sample::select(vec![
        Heading::Up,
        Heading::Down,
        Heading::Left,
        Heading::Right,
    ]);
    prop_oneof![
        16 => (any_gesture(), reach).prop_map(|(gesture, reach)| Intent::Gesture(gesture, reach)),
        4 => prop::sample::select(Tool::ALL.to_vec()).prop_map(Intent::Take),
        2 => any_hand().prop_map(Intent::SetHand),
        2 => texts.clone().prop_map(Intent::Typed),
        1 => texts.prop_map(Intent::Typing),
        2 => any_edit().prop_map(Intent::Edit),
        2 => Just(Intent::Undo),
        1 => Just(Intent::Redo),
        1 => Just(Intent::LetGo),
        1 => Just(Intent::Delete),
        1 => (headings, any::<bool>())
            .prop_map(|(heading, large)| Intent::Nudge { heading, large }),
        2 => any_choice().prop_map(|choice| Intent::Choose(Some(choice))),
        1 => prop::sample::select(Step::ALL.to_vec()).prop_map(Intent::GoTo),
        1 => (0..4u32).prop_map(|id| Intent::ShowLevel(LevelId(id))),
        1 => prop::sample::select(vec![
            Intent::QuarterTurn,
            Intent::TakeOver,
            Intent::Return(Rc::new(crate::plan::Plan::new()), String::from("Printed")),
            Intent::DismissNotice,
            Intent::Choose(None),
        ]),
    ]
}

fn row(length: usize) -> impl Strategy<Value = Vec<Intent>> {
    prop::collection::vec(any_intent(), 1..length)
}

/// What must hold of any session at any moment.
fn sound(session: &Session) -> Result<(), TestCaseError> {
    prop_assert!(session.shown_level().is_some());
    prop_assert!(
        session
            .chosen
            .is_none_or(|choice| choice.stands(&session.plan, &session.design))
    );
    let hint = session.hint();
    prop_assert!(hint.ends_with('.') && !hint.contains('!'), "{}", hint);
    for step in Step::ALL {
        prop_assert!(!session.lacks(step).words.is_empty());
    }
    if let Some(snap) = &session.snap {
        prop_assert!(!snap.words().is_empty());
    }
    if let Some(notice) = &session.notice {
        prop_assert!(notice.text.ends_with('.') && !notice.text.contains('!'));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Nothing a person does panics or leaves a session that contradicts itself, and every change
    /// of the plan comes back by one undo and goes again by one redo.
    #[test]
    fn every_change_is_undone_and_redone(intents in row(40)) {
        let mut session = Trial::with_house().session;
        for intent in &intents {
            let next = session.after(intent);
            sound(&next)?;
            let stepping = matches!(intent, Intent::Undo | Intent::Redo);
            if !stepping && !Rc::ptr_eq(&next.plan, &session.plan) {
                let back = next.after(&Intent::Undo);
                prop_assert_eq!(&*back.plan, &*session.plan, "{:?}", intent);
                let again = back.after(&Intent::Redo);
                prop_assert_eq!(&*again.plan, &*next.plan, "{:?}", intent);
            }
            session = next;
        }
    }

    /// All the way back is where it began, however it went.
    #[test]
    fn undoing_everything_gives_the_first_plan(intents in row(30)) {
        let first = Trial::with_house().session;
        let steps = first.history.len();
        let mut session = intents
            .iter()
            .filter(|intent| !matches!(intent, Intent::Undo))
            .fold(first.clone(), |session, intent| session.after(intent));
        for _ in 0..200 {
            let begun = session.draft.as_ref().is_some_and(Draft::is_begun);
            if begun || session.history.len() > steps {
                session = session.after(&Intent::Undo);
            }
        }
        prop_assert_eq!(&*session.plan, &*first.plan);
    }

    /// A plan that came by link is never changed, whatever is done short of taking it over.
    #[test]
    fn a_shared_plan_never_changes(intents in row(30)) {
        let plan = Rc::clone(&Trial::with_house().session.plan);
        let mut session = Session::shared(Rc::clone(&plan));
        for intent in &intents {
            if *intent == Intent::TakeOver {
                continue;
            }
            session = session.after(intent);
            sound(&session)?;
            prop_assert!(Rc::ptr_eq(&session.plan, &plan));
            prop_assert!(Rc::ptr_eq(session.shown_plan(), &plan));
            prop_assert!(session.history.is_empty());
        }
    }

    /// A drag that comes to nothing leaves plan, history and what was begun as they were.
    #[test]
    fn a_cancelled_drag_leaves_no_trace(
        intents in row(20), from in any_point(), way in prop::collection::vec(any_point(), 1..5),
    ) {
        let before = intents
            .iter()
            .fold(Trial::with_house().session, |session, intent| session.after(intent))
            .after(&Intent::Gesture(Gesture::Left, REACH));
        let mut session = before.clone();
        for (place, to) in way.iter().enumerate() {
            let (from, to) = (from, *to);
            let gesture = match place {
                0 => Gesture::DragBegan { from, to },
                _ => Gesture::DragMoved { from, to },
            };
            session = session.after(&Intent::Gesture(gesture, REACH));
        }
        session = session.after(&Intent::Gesture(Gesture::DragCancelled, REACH));
        prop_assert!(Rc::ptr_eq(&session.plan, &before.plan));
        prop_assert!(Rc::ptr_eq(&session.history, &before.history));
        prop_assert_eq!(&session.draft, &before.draft);
        prop_assert!(Rc::ptr_eq(session.shown_plan(), before.shown_plan()));
    }
}
