//! Pointers and the wheel on the sheet become acts.

use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};

use borewright_core::desk::{Act as HandAct, Hands, Pointer, PointerKind, Signal};
use gloo::render::{AnimationFrame, request_animation_frame};
use gloo::timers::callback::Timeout;
use web_sys::Element;
use yew::prelude::*;

use crate::browser::{clock, pointer};
use crate::hooks::use_dispatcher;
use crate::state::{Act, Dispatcher};

/// A finger that rests this long has pressed long, milliseconds; a little over the hands' own time.
const LONG_PRESS: u32 = 520;

/// The wheel makes everything larger or smaller about the pointer.
#[hook]
pub fn use_wheel() -> Callback<WheelEvent> {
    let dispatcher = use_dispatcher();
    Callback::from(move |event: WheelEvent| {
        event.prevent_default();
        let Some(sheet) = sheet_of(&event) else {
            return;
        };
        let (x, y) = (f64::from(event.client_x()), f64::from(event.client_y()));
        let at = pointer::place(x, y, &sheet);
        let lines = if event.delta_mode() == 1 { 16.0 } else { 1.0 };
        let pixels = (event.delta_y() * lines).clamp(-240.0, 240.0);
        dispatcher.dispatch(Act::Zoom(Some(at), (-pixels * 0.0015).exp()));
    })
}

fn sheet_of(event: &Event) -> Option<Element> {
    let target: Element = event.target_dyn_into()?;
    target.closest(".Sheet").ok().flatten()
}

/// A callback that takes every pointer event on the sheet.
#[hook]
pub fn use_surface(node: &NodeRef) -> Callback<PointerEvent> {
    let dispatcher = use_dispatcher();
    let surface = use_memo((), |()| Surface {
        hands: RefCell::default(),
        timer: RefCell::default(),
        held: Cell::default(),
        moves: RefCell::default(),
        frame: RefCell::default(),
        dispatcher,
    });
    let node = node.clone();
    use_callback((), move |event: PointerEvent, ()| {
        if let Some(sheet) = node.cast::<Element>() {
            Surface::take(&surface, &event, &sheet);
        }
    })
}

/// What the hands are doing, kept from event to event.
struct Surface {
    hands: RefCell<Hands>,
    timer: RefCell<Option<Timeout>>,
    /// Buttons a press began with: the browser no longer says so when they are lifted.
    held: Cell<u16>,
    /// Moves that wait for the next frame, the last of each pointer.
    moves: RefCell<Vec<(Pointer, bool)>>,
    frame: RefCell<Option<AnimationFrame>>,
    dispatcher: Dispatcher,
}

impl Surface {
    fn take(surface: &Rc<Self>, event: &PointerEvent, sheet: &Element) {
        let mut pointer = pointer::read(event, sheet);
        let signal = match event.type_().as_str() {
            "pointerdown" => {
                pointer::hold(event, sheet);
                surface.held.set(pointer.buttons);
                Signal::Down(pointer)
            }
            "pointermove" => return Self::later(surface, pointer, event.alt_key()),
            "pointerup" => {
                pointer.buttons |= surface.held.take();
                Signal::Up(pointer)
            }
            "pointercancel" => Signal::Cancelled(pointer),
            _ => Signal::Left(pointer),
        };
        surface.catch_up();
        surface.pass(signal, pointer.kind, event.alt_key());
        surface.wait(Rc::downgrade(surface), pointer.kind);
    }

    /// Moves are taken once a frame: the last of each pointer says all.
    fn later(surface: &Rc<Self>, pointer: Pointer, free: bool) {
        let mut moves = surface.moves.borrow_mut();
        moves.retain(|(earlier, _)| earlier.id != pointer.id);
        moves.push((pointer, free));
        let mut frame = surface.frame.borrow_mut();
        if frame.is_none() {
            let surface = Rc::downgrade(surface);
            *frame = Some(request_animation_frame(move |_| {
                if let Some(surface) = surface.upgrade() {
                    surface.catch_up();
                }
            }));
        }
    }

    /// Takes the moves that wait.
    fn catch_up(&self) {
        drop(self.frame.take());
        for (pointer, free) in self.moves.take() {
            self.pass(Signal::Moved(pointer), pointer.kind, free);
        }
    }

    fn pass(&self, signal: Signal, kind: PointerKind, free: bool) {
        let acts = self.hands.borrow_mut().after(signal);
        for act in acts {
            self.dispatcher.dispatch(match act {
                HandAct::Hand(gesture) => Act::Hand(gesture, kind.reach(), free),
                HandAct::Paper(paper) => Act::Paper(paper),
            });
        }
    }

    /// Ticks once after a press that may yet become a long one.
    fn wait(&self, surface: Weak<Self>, kind: PointerKind) {
        let waiting = self.hands.borrow().is_waiting();
        let mut timer = self.timer.borrow_mut();
        if !waiting {
            *timer = None;
        } else if timer.is_none() {
            *timer = Some(Timeout::new(LONG_PRESS, move || {
                if let Some(surface) = surface.upgrade() {
                    surface.timer.borrow_mut().take();
                    surface.pass(Signal::Waited(clock::now_ms()), kind, false);
                }
            }));
        }
    }
}
