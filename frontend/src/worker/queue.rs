//! What was heard and not yet looked at, for one that waits for it.

use std::cell::RefCell;
use std::collections::VecDeque;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

/// What was heard.
pub(super) struct Queue<T>(Rc<RefCell<(VecDeque<T>, Option<Waker>)>>);

impl<T> Default for Queue<T> {
    fn default() -> Self {
        Self(Rc::new(RefCell::new((VecDeque::new(), None))))
    }
}

impl<T> Clone for Queue<T> {
    fn clone(&self) -> Self {
        Self(self.0.clone())
    }
}

impl<T> Queue<T> {
    /// Adds something, and wakes who waits.
    pub fn put(&self, thing: T) {
        let waker = {
            let (things, waker) = &mut *self.0.borrow_mut();
            things.push_back(thing);
            waker.take()
        };
        waker.into_iter().for_each(Waker::wake);
    }

    /// The next thing, once there is one.
    pub fn take(&self, context: &Context<'_>) -> Poll<T> {
        let (things, waker) = &mut *self.0.borrow_mut();
        match things.pop_front() {
            Some(thing) => Poll::Ready(thing),
            None => {
                *waker = Some(context.waker().clone());
                Poll::Pending
            }
        }
    }
}
