//! Rows of amounts that are nearly all nothing, kept by pages: a page is there once something on it
//! was set.
//!
//! The lower bound keeps what every payer pays at every crossing. A payer comes near few of the
//! crossings of a large house, and crossings that lie together have numbers that lie together.

/// Amounts on a page; a power of two.
const PAGE: usize = 64;

/// Two amounts for every column of every row, nothing to begin with.
#[derive(Clone, Debug)]
pub(super) struct Paged {
    /// Pages a row has.
    per_row: usize,
    /// For each row and page where it lies; 0 where nothing was ever set.
    table: Vec<u32>,
    /// Page 0 is empty and stays so.
    pages: Vec<[[u32; 2]; PAGE]>,
}

impl Paged {
    pub fn new(rows: usize, columns: usize) -> Self {
        let per_row = columns.div_ceil(PAGE);
        Self {
            per_row,
            table: vec![0; rows * per_row],
            pages: vec![[[0; 2]; PAGE]],
        }
    }

    pub fn at(&self, row: usize, column: u32) -> [u32; 2] {
        let (page, at) = self.place(row, column);
        self.pages[self.table[page] as usize][at]
    }

    /// Sets two amounts and returns what was there.
    pub fn set(&mut self, row: usize, column: u32, amounts: [u32; 2]) -> [u32; 2] {
        let (page, at) = self.place(row, column);
        if self.table[page] == 0 {
            if amounts == [0; 2] {
                return amounts;
            }
            self.table[page] = self.pages.len() as u32;
            self.pages.push([[0; 2]; PAGE]);
        }
        std::mem::replace(&mut self.pages[self.table[page] as usize][at], amounts)
    }

    /// The columns of a row with anything in them, and what it is, in order.
    pub fn row(&self, row: usize) -> impl Iterator<Item = (u32, [u32; 2])> {
        let table = &self.table[row * self.per_row..(row + 1) * self.per_row];
        let there = table.iter().enumerate().filter(|(_, page)| **page > 0);
        there.flat_map(|(first, page)| {
            let amounts = self.pages[*page as usize].iter().enumerate();
            let set = amounts.filter(|(_, amounts)| **amounts != [0; 2]);
            set.map(move |(at, amounts)| ((first * PAGE + at) as u32, *amounts))
        })
    }

    /// Everything that may be more than nothing.
    pub fn all_mut(&mut self) -> impl Iterator<Item = &mut u32> {
        self.pages[1..].as_flattened_mut().iter_mut().flatten()
    }

    fn place(&self, row: usize, column: u32) -> (usize, usize) {
        let column = column as usize;
        (row * self.per_row + column / PAGE, column % PAGE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_set_is_there_and_nothing_else() {
        let mut paged = Paged::new(3, 200);
        assert_eq!(paged.set(1, 130, [0, 0]), [0, 0]);
        assert_eq!(paged.pages.len(), 1, "nothing takes no room");
        assert_eq!(paged.set(1, 130, [5, 0]), [0, 0]);
        assert_eq!(paged.set(1, 199, [0, 7]), [0, 0]);
        assert_eq!(paged.set(1, 130, [6, 1]), [5, 0]);
        assert_eq!(paged.at(1, 130), [6, 1]);
        assert_eq!(paged.at(1, 131), [0, 0]);
        assert_eq!(paged.at(0, 130), [0, 0]);
        let row: Vec<_> = paged.row(1).collect();
        assert_eq!(row, [(130, [6, 1]), (199, [0, 7])]);
        assert_eq!(paged.row(2).count(), 0);
        paged.all_mut().for_each(|amount| *amount /= 2);
        assert_eq!(paged.at(1, 199), [0, 3]);
        paged.set(1, 130, [0, 0]);
        assert_eq!(paged.row(1).collect::<Vec<_>>(), [(199, [0, 3])]);
    }
}
