//! Numbers in columns. The things of a plan are written not one after another but one property
//! after another, since the lumber of one wall is like the lumber of the next. Each column is
//! written in the way that is shortest for it. Knows nothing of plans.

use super::LinkError;
use super::words;

/// Bytes being written, and the texts that go at the end of all.
#[derive(Default)]
pub(super) struct Writer {
    pub bytes: Vec<u8>,
    pub texts: Vec<u8>,
}

/// How a column is written; the first byte of every column that is not empty.
mod mode {
    /// Every value is zero.
    pub const ZERO: u8 = 0;
    /// Every value is the one that follows.
    pub const SAME: u8 = 1;
    /// Each value as it is.
    pub const PLAIN: u8 = 2;
    /// Each value less the one before.
    pub const STEPS: u8 = 3;
    /// A table of the values that occur, then for each its place in the table.
    pub const TABLE: u8 = 4;
}

impl Writer {
    /// A whole number from zero up, seven bits a byte, lowest first.
    pub fn number(&mut self, number: u64) {
        number_to(&mut self.bytes, number);
    }

    /// A column of numbers, of a length the reader knows.
    pub fn column(&mut self, values: &[i64]) {
        let Some(first) = values.first() else {
            return;
        };
        if values.iter().all(|value| value == first) {
            match first {
                0 => self.bytes.push(mode::ZERO),
                _ => {
                    self.bytes.push(mode::SAME);
                    signed_to(&mut self.bytes, *first);
                }
            }
            return;
        }
        let ways = [
            (mode::PLAIN, plain(values)),
            (mode::STEPS, plain(&steps(values))),
            (mode::TABLE, table(values)),
        ];
        let shortest = ways.into_iter().min_by_key(|(_, bytes)| bytes.len());
        if let Some((mode, bytes)) = shortest {
            self.bytes.push(mode);
            self.bytes.extend(bytes);
        }
    }

    /// A column made from things.
    pub fn of<T>(&mut self, things: &[T], value: impl Fn(&T) -> i64) {
        self.column(&things.iter().map(value).collect::<Vec<_>>());
    }

    /// A column of identities, which mostly run on by one from 1.
    pub fn identities<T>(&mut self, things: &[T], id: impl Fn(&T) -> u32) {
        let mut last = 0;
        let gaps: Vec<i64> = things
            .iter()
            .map(|thing| {
                let id = i64::from(id(thing));
                let gap = id - last - 1;
                last = id;
                gap
            })
            .collect();
        self.column(&gaps);
    }

    /// A column of real numbers, exact to the last bit: as whole micrometres or sixteenths of an
    /// inch where they are such, else bit by bit.
    pub fn reals(&mut self, values: &[f64]) {
        let forms: Vec<(i64, i64)> = values.iter().map(|value| form(*value)).collect();
        self.column(&forms.iter().map(|(kind, _)| *kind).collect::<Vec<_>>());
        self.column(&forms.iter().map(|(_, value)| *value).collect::<Vec<_>>());
        for (value, (kind, _)) in values.iter().zip(&forms) {
            if *kind == BITS {
                self.bytes.extend(value.to_bits().to_le_bytes());
            }
        }
    }

    /// A text; it goes to the end of all.
    pub fn text(&mut self, text: &str) {
        words::pack(text, &mut self.texts);
    }
}

/// A real number that is a whole number of thousandths.
const THOUSANDTHS: i64 = 0;
/// A real number that is a whole number of sixteenths of an inch.
const SIXTEENTHS: i64 = 1;
/// Any other real number.
const BITS: i64 = 2;

fn form(value: f64) -> (i64, i64) {
    let thousandths = (value * 1000.0).round();
    if thousandths.abs() < 1e12 && real(THOUSANDTHS, thousandths as i64) == value {
        return (THOUSANDTHS, thousandths as i64);
    }
    let sixteenths = (value / 25.4 * 16.0).round();
    if sixteenths.abs() < 1e12 && real(SIXTEENTHS, sixteenths as i64) == value {
        return (SIXTEENTHS, sixteenths as i64);
    }
    (BITS, 0)
}

fn real(kind: i64, value: i64) -> f64 {
    match kind {
        SIXTEENTHS => value as f64 / 16.0 * 25.4,
        _ => value as f64 / 1000.0,
    }
}

fn number_to(bytes: &mut Vec<u8>, mut number: u64) {
    while number >= 0x80 {
        bytes.push(number as u8 | 0x80);
        number >>= 7;
    }
    bytes.push(number as u8);
}

/// Signed numbers fold over, so that small ones stay short: 0, -1, 1, -2, ...
fn signed_to(bytes: &mut Vec<u8>, value: i64) {
    number_to(bytes, ((value << 1) ^ (value >> 63)) as u64);
}

fn plain(values: &[i64]) -> Vec<u8> {
    let mut bytes = Vec::new();
    values.iter().for_each(|v| signed_to(&mut bytes, *v));
    bytes
}

fn steps(values: &[i64]) -> Vec<i64> {
    let mut last = 0_i64;
    let step = |value: &i64| {
        let step = value.wrapping_sub(last);
        last = *value;
        step
    };
    values.iter().map(step).collect()
}

fn table(values: &[i64]) -> Vec<u8> {
    let mut sorted = values.to_vec();
    sorted.sort_unstable();
    sorted.dedup();
    let mut bytes = Vec::new();
    number_to(&mut bytes, sorted.len() as u64);
    bytes.extend(plain(&steps(&sorted)));
    for value in values {
        let place = sorted.binary_search(value).unwrap_or(0);
        number_to(&mut bytes, place as u64);
    }
    bytes
}

/// Bytes being read, and the texts in the order they were written.
pub(super) struct Reader<'a> {
    bytes: &'a [u8],
}

type Read<T> = Result<T, LinkError>;

impl<'a> Reader<'a> {
    pub fn new(bytes: &'a [u8]) -> Self {
        Self { bytes }
    }

    /// Whether everything was read.
    pub fn is_empty(&self) -> bool {
        self.bytes.is_empty()
    }

    /// A whole number from zero up.
    pub fn number(&mut self) -> Read<u64> {
        let mut number = 0_u64;
        for place in 0..10 {
            let byte = *self.take(1)?.first().ok_or(LinkError::Altered)?;
            let part = u64::from(byte & 0x7F);
            if part.leading_zeros() < 7 * place {
                return Err(LinkError::Altered);
            }
            number |= part << (7 * place);
            if byte < 0x80 {
                return Ok(number);
            }
        }
        Err(LinkError::Altered)
    }

    /// A count of things, refused above `most` before anything is set aside for them.
    pub fn count(&mut self, most: usize) -> Read<usize> {
        let count = self.number()?;
        match usize::try_from(count) {
            Ok(count) if count <= most => Ok(count),
            _ => Err(LinkError::Altered),
        }
    }

    /// The next `count` bytes.
    pub fn take(&mut self, count: usize) -> Read<&'a [u8]> {
        let (taken, rest) = self
            .bytes
            .split_at_checked(count)
            .ok_or(LinkError::Altered)?;
        self.bytes = rest;
        Ok(taken)
    }

    /// All that is left.
    pub fn rest(&mut self) -> &'a [u8] {
        std::mem::take(&mut self.bytes)
    }

    fn signed(&mut self) -> Read<i64> {
        let folded = self.number()?;
        Ok((folded >> 1) as i64 ^ -((folded & 1) as i64))
    }

    /// A column of `count` numbers; `count` was checked against its most.
    pub fn column(&mut self, count: usize) -> Read<Vec<i64>> {
        if count == 0 {
            return Ok(Vec::new());
        }
        match self.take(1)?.first() {
            Some(&mode::ZERO) => Ok(vec![0; count]),
            Some(&mode::SAME) => Ok(vec![self.signed()?; count]),
            Some(&mode::PLAIN) => (0..count).map(|_| self.signed()).collect(),
            Some(&mode::STEPS) => self.steps(count),
            Some(&mode::TABLE) => {
                let entries = self.count(count)?;
                let table = self.steps(entries)?;
                let entry = |reader: &mut Self| {
                    let place = reader.count(entries)?;
                    table.get(place).copied().ok_or(LinkError::Altered)
                };
                (0..count).map(|_| entry(self)).collect()
            }
            _ => Err(LinkError::Altered),
        }
    }

    fn steps(&mut self, count: usize) -> Read<Vec<i64>> {
        let mut last = 0_i64;
        let mut step = || {
            last = last.wrapping_add(self.signed()?);
            Ok(last)
        };
        (0..count).map(|_| step()).collect()
    }

    /// A column of numbers of another type; one out of its range is an error.
    pub fn column_of<T: TryFrom<i64>>(&mut self, count: usize) -> Read<Vec<T>> {
        let column = self.column(count)?;
        let fit = |value: i64| T::try_from(value).map_err(|_| LinkError::Altered);
        column.into_iter().map(fit).collect()
    }

    /// A column of identities.
    pub fn identities(&mut self, count: usize) -> Read<Vec<u32>> {
        let mut last = 0_i64;
        let mut identity = |gap: i64| {
            last = last.wrapping_add(gap).wrapping_add(1);
            u32::try_from(last).map_err(|_| LinkError::Altered)
        };
        let gaps = self.column(count)?;
        gaps.into_iter().map(&mut identity).collect()
    }

    /// A column of real numbers.
    pub fn reals(&mut self, count: usize) -> Read<Vec<f64>> {
        let kinds = self.column(count)?;
        let values = self.column(count)?;
        let mut reals = Vec::with_capacity(count);
        for (kind, value) in kinds.into_iter().zip(values) {
            reals.push(match kind {
                THOUSANDTHS | SIXTEENTHS => real(kind, value),
                BITS => {
                    let bits = self.take(8)?.try_into().map_err(|_| LinkError::Altered)?;
                    f64::from_bits(u64::from_le_bytes(bits))
                }
                _ => return Err(LinkError::Altered),
            });
        }
        Ok(reals)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn round(values: &[i64]) -> usize {
        let mut writer = Writer::default();
        writer.column(values);
        let mut reader = Reader::new(&writer.bytes);
        assert_eq!(reader.column(values.len()).unwrap(), values);
        assert!(reader.is_empty());
        writer.bytes.len()
    }

    #[test]
    fn columns_take_their_shortest_way() {
        assert_eq!(round(&[]), 0);
        assert_eq!(round(&[0; 40]), 1);
        assert_eq!(round(&[7; 40]), 2);
        assert_eq!(round(&[5000, 5001, 5002, 5003, 5004]), 1 + 2 + 4);
        let few: Vec<i64> = (0..40).map(|n| 100_000 * (n % 3)).collect();
        assert_eq!(round(&few), 1 + 1 + 1 + 3 + 3 + 40);
    }

    #[test]
    fn reals_keep_every_bit() {
        let values = [
            406.4,
            5.5 * 25.4,
            11.875 * 25.4,
            100.0 / 3.0,
            0.1 + 0.2,
            -1e300,
        ];
        let mut writer = Writer::default();
        writer.reals(&values);
        let back = Reader::new(&writer.bytes).reals(values.len()).unwrap();
        assert!(
            values
                .iter()
                .zip(&back)
                .all(|(a, b)| a.to_bits() == b.to_bits())
        );
    }

    proptest! {
        #[test]
        fn every_column_comes_back(values: Vec<i64>) {
            round(&values);
        }

        #[test]
        fn any_bytes_are_read_or_refused(bytes: Vec<u8>, count in 0_usize..50) {
            let _ = Reader::new(&bytes).column(count);
            let _ = Reader::new(&bytes).reals(count);
            let _ = Reader::new(&bytes).identities(count);
        }
    }
}
