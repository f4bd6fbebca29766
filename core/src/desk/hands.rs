//! The machine that makes gestures of raw pointer events.
//!
//! It knows screen points and times only: no plan, no tool, no clock of its own.

use super::gesture::{Act, Gesture, PaperMove, Pointer, PointerKind, Signal};
use super::view::ScreenPoint;

/// A finger resting this long in one place is a long press, milliseconds.
const LONG_PRESS_MS: f64 = 500.0;

/// What all pointers on the sheet are doing together.
///
/// Second fingers end whatever the first one had begun, so that moving the paper never draws. After
/// two fingers all must be lifted before the next gesture begins.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hands {
    doing: Doing,
    /// Fingers and pressed pointers on the sheet.
    down: Vec<(i32, ScreenPoint)>,
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
enum Doing {
    /// Nothing is pressed.
    #[default]
    Nothing,
    /// Pressed, and not yet told apart.
    Pressed(Press),
    /// Dragging.
    Dragging(Press),
    /// The gesture is over, but the pointer is still down.
    Spent,
    /// Two fingers, or the middle button, move the paper.
    Paper,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Press {
    id: i32,
    from: ScreenPoint,
    kind: PointerKind,
    since_ms: f64,
}

impl Press {
    fn is_long(&self, now_ms: f64) -> bool {
        self.kind.has_long_press() && now_ms - self.since_ms >= LONG_PRESS_MS
    }
}

impl Hands {
    /// Takes one signal and gives what it means, in order.
    pub fn after(&mut self, signal: Signal) -> Vec<Act> {
        match signal {
            Signal::Down(pointer) => self.pressed(pointer),
            Signal::Moved(pointer) => self.moved(pointer),
            Signal::Up(pointer) => self.lifted(pointer),
            Signal::Cancelled(pointer) => self.taken(pointer),
            Signal::Left(_) => match self.doing {
                Doing::Nothing => vec![Act::Hand(Gesture::Left)],
                _ => Vec::new(),
            },
            Signal::Waited(now_ms) => self.waited(now_ms),
        }
    }

    /// Gives up what is going on, as Escape does in the middle of a drag.
    pub fn give_up(&mut self) -> Vec<Act> {
        let acts = self.cancelled();
        if !self.down.is_empty() {
            self.doing = Doing::Spent;
        }
        acts
    }

    /// Whether a press is going on that may yet become a long one; the page need only tick then.
    pub fn is_waiting(&self) -> bool {
        matches!(self.doing, Doing::Pressed(press) if press.kind.has_long_press())
    }

    fn pressed(&mut self, pointer: Pointer) -> Vec<Act> {
        let first = self.down.is_empty();
        self.down.retain(|(id, _)| *id != pointer.id);
        self.down.push((pointer.id, pointer.at));
        if !first {
            return self.second_pressed();
        }
        if pointer.is_second() {
            self.doing = Doing::Spent;
            return vec![Act::Hand(Gesture::LongPress(pointer.at))];
        }
        self.doing = match pointer.is_middle() {
            true => Doing::Paper,
            false => Doing::Pressed(Press {
                id: pointer.id,
                from: pointer.at,
                kind: pointer.kind,
                since_ms: pointer.time_ms,
            }),
        };
        Vec::new()
    }

    fn second_pressed(&mut self) -> Vec<Act> {
        let acts = self.cancelled();
        self.doing = match self.down.len() {
            2 => Doing::Paper,
            _ => Doing::Spent,
        };
        acts
    }

    fn moved(&mut self, pointer: Pointer) -> Vec<Act> {
        if self.was_lifted_elsewhere(&pointer) {
            let mut acts = self.taken(pointer);
            acts.push(Act::Hand(Gesture::Hover(pointer.at)));
            return acts;
        }
        let before = self.down.clone();
        for (id, at) in &mut self.down {
            if *id == pointer.id {
                *at = pointer.at;
            }
        }
        match self.doing {
            Doing::Nothing => hover(&pointer),
            Doing::Pressed(press) if press.id == pointer.id => self.wandered(press, &pointer),
            Doing::Dragging(press) if press.id == pointer.id => {
                vec![Act::Hand(Gesture::DragMoved {
                    from: press.from,
                    to: pointer.at,
                })]
            }
            Doing::Paper => paper_move(&before, &self.down),
            _ => Vec::new(),
        }
    }

    /// A mouse that moves without a button was lifted where the page could not see it.
    fn was_lifted_elsewhere(&self, pointer: &Pointer) -> bool {
        pointer.kind == PointerKind::Mouse && pointer.buttons == 0 && self.is_down(pointer.id)
    }

    fn wandered(&mut self, press: Press, pointer: &Pointer) -> Vec<Act> {
        if press.from.distance(pointer.at) >= press.kind.slop() {
            self.doing = Doing::Dragging(press);
            return vec![Act::Hand(Gesture::DragBegan {
                from: press.from,
                to: pointer.at,
            })];
        }
        self.waited(pointer.time_ms)
    }

    fn waited(&mut self, now_ms: f64) -> Vec<Act> {
        match self.doing {
            Doing::Pressed(press) if press.is_long(now_ms) => {
                self.doing = Doing::Spent;
                vec![Act::Hand(Gesture::LongPress(press.from))]
            }
            _ => Vec::new(),
        }
    }

    fn lifted(&mut self, pointer: Pointer) -> Vec<Act> {
        if !self.is_down(pointer.id) {
            return Vec::new();
        }
        let acts = match self.doing {
            Doing::Pressed(press) if press.id == pointer.id => {
                vec![Act::Hand(match press.is_long(pointer.time_ms) {
                    true => Gesture::LongPress(press.from),
                    false => Gesture::Tap(press.from),
                })]
            }
            Doing::Dragging(press) if press.id == pointer.id => {
                vec![Act::Hand(Gesture::DragEnded {
                    from: press.from,
                    to: pointer.at,
                })]
            }
            _ => Vec::new(),
        };
        self.released(pointer.id);
        acts
    }

    fn taken(&mut self, pointer: Pointer) -> Vec<Act> {
        if !self.is_down(pointer.id) {
            return Vec::new();
        }
        let acts = self.cancelled();
        self.released(pointer.id);
        acts
    }

    /// Pointers that were pressed elsewhere are lifted here now and then; they mean nothing.
    fn is_down(&self, id: i32) -> bool {
        self.down.iter().any(|(down, _)| *down == id)
    }

    /// A drag under way comes to nothing.
    fn cancelled(&mut self) -> Vec<Act> {
        match std::mem::take(&mut self.doing) {
            Doing::Dragging(_) => vec![Act::Hand(Gesture::DragCancelled)],
            _ => Vec::new(),
        }
    }

    fn released(&mut self, id: i32) {
        self.down.retain(|(down, _)| *down != id);
        self.doing = match self.down.is_empty() {
            true => Doing::Nothing,
            false => Doing::Spent,
        };
    }
}

fn hover(pointer: &Pointer) -> Vec<Act> {
    match pointer.kind {
        PointerKind::Touch => Vec::new(),
        PointerKind::Mouse | PointerKind::Pen => vec![Act::Hand(Gesture::Hover(pointer.at))],
    }
}

/// The paper follows the middle of the fingers and grows with their distance.
fn paper_move(before: &[(i32, ScreenPoint)], after: &[(i32, ScreenPoint)]) -> Vec<Act> {
    let (from, spread) = middle(before);
    let (to, spread_now) = middle(after);
    let factor = match spread > 1.0 && spread_now > 1.0 {
        true => spread_now / spread,
        false => 1.0,
    };
    vec![Act::Paper(PaperMove { from, to, factor })]
}

/// The middle of one or two fingers and the distance between them.
fn middle(down: &[(i32, ScreenPoint)]) -> (ScreenPoint, f64) {
    match down {
        [(_, one), (_, other), ..] => (
            ScreenPoint::new((one.x + other.x) / 2.0, (one.y + other.y) / 2.0),
            one.distance(*other),
        ),
        [(_, one)] => (*one, 0.0),
        [] => (ScreenPoint::default(), 0.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn pointer(id: i32, kind: PointerKind, x: f64, buttons: u16, time_ms: f64) -> Pointer {
        let at = ScreenPoint::new(x, 0.0);
        Pointer {
            id,
            at,
            kind,
            buttons,
            time_ms,
        }
    }

    fn mouse(x: f64, buttons: u16) -> Pointer {
        pointer(1, PointerKind::Mouse, x, buttons, 0.0)
    }

    fn finger(id: i32, x: f64, time_ms: f64) -> Pointer {
        pointer(id, PointerKind::Touch, x, 1, time_ms)
    }

    fn at(x: f64) -> ScreenPoint {
        ScreenPoint::new(x, 0.0)
    }

    /// The acts of a row of signals, as short words.
    fn told(signals: &[Signal]) -> Vec<Act> {
        let mut hands = Hands::default();
        signals.iter().flat_map(|s| hands.after(*s)).collect()
    }

    #[test]
    fn a_mouse_taps_within_three_pixels_and_drags_beyond() {
        use Signal::{Down, Moved, Up};
        let tap = told(&[Down(mouse(0.0, 1)), Moved(mouse(2.0, 1)), Up(mouse(2.0, 0))]);
        assert_eq!(tap, [Act::Hand(Gesture::Tap(at(0.0)))]);
        let drag = told(&[
            Down(mouse(0.0, 1)),
            Moved(mouse(3.0, 1)),
            Moved(mouse(9.0, 1)),
            Up(mouse(10.0, 0)),
        ]);
        let (from, went) = (at(0.0), [at(3.0), at(9.0), at(10.0)]);
        assert_eq!(
            drag,
            [
                Act::Hand(Gesture::DragBegan { from, to: went[0] }),
                Act::Hand(Gesture::DragMoved { from, to: went[1] }),
                Act::Hand(Gesture::DragEnded { from, to: went[2] }),
            ]
        );
    }

    #[test]
    fn a_finger_may_wander_farther_and_never_hovers() {
        use Signal::{Down, Moved, Up};
        let tap = told(&[
            Moved(finger(1, 40.0, 0.0)),
            Down(finger(1, 0.0, 0.0)),
            Moved(finger(1, 7.0, 10.0)),
            Up(finger(1, 7.0, 20.0)),
        ]);
        assert_eq!(tap, [Act::Hand(Gesture::Tap(at(0.0)))]);
        assert_eq!(
            told(&[Moved(mouse(5.0, 0))]),
            [Act::Hand(Gesture::Hover(at(5.0)))]
        );
    }

    #[test]
    fn a_long_press_and_the_second_button_mean_the_same() {
        use Signal::{Down, Up, Waited};
        let long = [Act::Hand(Gesture::LongPress(at(0.0)))];
        let press = Down(finger(1, 0.0, 0.0));
        assert_eq!(
            told(&[
                press,
                Waited(499.0),
                Waited(500.0),
                Up(finger(1, 0.0, 600.0))
            ]),
            long
        );
        assert_eq!(told(&[press, Up(finger(1, 0.0, 600.0))]), long);
        assert_eq!(told(&[Down(mouse(0.0, 2)), Up(mouse(0.0, 0))]), long);
        let slow = told(&[
            Down(mouse(0.0, 1)),
            Waited(900.0),
            Up(pointer(1, PointerKind::Mouse, 0.0, 0, 950.0)),
        ]);
        assert_eq!(slow, [Act::Hand(Gesture::Tap(at(0.0)))]);
    }

    #[test]
    fn a_second_finger_cancels_the_drag_and_moves_the_paper() {
        use Signal::{Down, Moved, Up};
        let acts = told(&[
            Down(finger(1, 0.0, 0.0)),
            Moved(finger(1, 20.0, 10.0)),
            Down(finger(2, 120.0, 20.0)),
            Moved(finger(2, 220.0, 30.0)),
            Up(finger(1, 20.0, 40.0)),
            Moved(finger(2, 400.0, 50.0)),
            Up(finger(2, 400.0, 60.0)),
            Down(finger(3, 0.0, 70.0)),
            Up(finger(3, 0.0, 80.0)),
        ]);
        let paper = PaperMove {
            from: at(70.0),
            to: at(120.0),
            factor: 2.0,
        };
        assert_eq!(acts[1], Act::Hand(Gesture::DragCancelled));
        assert_eq!(acts[2], Act::Paper(paper));
        assert_eq!(acts[3..], [Act::Hand(Gesture::Tap(at(0.0)))]);
    }

    #[test]
    fn the_middle_button_moves_the_paper_without_growth() {
        use Signal::{Down, Moved, Up};
        let acts = told(&[
            Down(mouse(0.0, 4)),
            Moved(mouse(10.0, 4)),
            Up(mouse(10.0, 0)),
        ]);
        let paper = PaperMove {
            from: at(0.0),
            to: at(10.0),
            factor: 1.0,
        };
        assert_eq!(acts, [Act::Paper(paper)]);
    }

    #[test]
    fn a_drag_lifted_outside_or_given_up_comes_to_nothing() {
        use Signal::{Down, Moved, Up};
        let begun = [Down(mouse(0.0, 1)), Moved(mouse(50.0, 1))];
        let mut hands = Hands::default();
        begun.iter().for_each(|signal| drop(hands.after(*signal)));
        assert_eq!(
            hands.after(Moved(mouse(60.0, 0))),
            [
                Act::Hand(Gesture::DragCancelled),
                Act::Hand(Gesture::Hover(at(60.0)))
            ]
        );
        begun.iter().for_each(|signal| drop(hands.after(*signal)));
        assert_eq!(hands.give_up(), [Act::Hand(Gesture::DragCancelled)]);
        assert_eq!(hands.after(Moved(mouse(70.0, 1))), []);
        assert_eq!(hands.after(Up(mouse(70.0, 0))), []);
        assert_eq!(hands, Hands::default());
    }

    fn any_signal() -> impl Strategy<Value = Signal> {
        let kind = prop_oneof![
            Just(PointerKind::Mouse),
            Just(PointerKind::Touch),
            Just(PointerKind::Pen)
        ];
        let pointer = (0..4i32, kind, -50.0..50.0f64, 0..8u16, 0.0..2000.0f64)
            .prop_map(|(id, kind, x, buttons, time_ms)| pointer(id, kind, x, buttons, time_ms));
        (0..6u8, pointer).prop_map(|(what, pointer)| match what {
            0 => Signal::Down(pointer),
            1 => Signal::Moved(pointer),
            2 => Signal::Up(pointer),
            3 => Signal::Cancelled(pointer),
            4 => Signal::Left(pointer),
            _ => Signal::Waited(pointer.time_ms),
        })
    }

    proptest! {
        /// Whatever happens, a drag goes on only after it began, and ends exactly once.
        #[test]
        fn drags_begin_and_end_in_pairs(signals in prop::collection::vec(any_signal(), 0..60)) {
            let mut dragging = false;
            for act in told(&signals) {
                let Act::Hand(gesture) = act else { continue };
                match gesture {
                    Gesture::DragBegan { .. } => {
                        prop_assert!(!dragging);
                        dragging = true;
                    }
                    Gesture::DragMoved { .. } => prop_assert!(dragging),
                    Gesture::DragEnded { .. } | Gesture::DragCancelled => {
                        prop_assert!(dragging);
                        dragging = false;
                    }
                    Gesture::Tap(_) | Gesture::LongPress(_) | Gesture::Hover(_) => {
                        prop_assert!(!dragging);
                    }
                    Gesture::Left => {}
                }
            }
        }
    }
}
