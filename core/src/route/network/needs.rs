//! What one payer needs of the crossings near its way, for the lower bound.

/// Two amounts at each crossing that was touched, forgotten at once for the next payer.
#[derive(Clone, Debug)]
pub(super) struct Needs {
    most: Vec<[u32; 2]>,
    touched: Vec<u32>,
    is_touched: Vec<bool>,
}

impl Needs {
    pub fn new(crossings: usize) -> Self {
        Self {
            most: vec![[0; 2]; crossings],
            touched: Vec::new(),
            is_touched: vec![false; crossings],
        }
    }

    /// A crossing counts from now on, with so much at least one way through it.
    pub fn note(&mut self, crossing: u32, way: usize, need: u32) {
        let at = crossing as usize;
        if !std::mem::replace(&mut self.is_touched[at], true) {
            self.touched.push(crossing);
        }
        let known = &mut self.most[at][way];
        *known = (*known).max(need);
    }

    /// Gives every touched crossing with its needs, and forgets them.
    pub fn take(&mut self, mut each: impl FnMut(u32, [u32; 2])) {
        for crossing in self.touched.drain(..) {
            self.is_touched[crossing as usize] = false;
            each(crossing, std::mem::take(&mut self.most[crossing as usize]));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_need_is_given_once_and_then_forgotten() {
        let mut needs = Needs::new(9);
        needs.note(7, 0, 3);
        needs.note(2, 1, 5);
        needs.note(7, 0, 2);
        needs.note(7, 1, 4);
        let mut given = Vec::new();
        needs.take(|crossing, need| given.push((crossing, need)));
        assert_eq!(given, [(7, [3, 4]), (2, [0, 5])]);
        needs.note(2, 0, 0);
        given.clear();
        needs.take(|crossing, need| given.push((crossing, need)));
        assert_eq!(given, [(2, [0, 0])]);
    }
}
