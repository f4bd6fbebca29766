//! A priority queue for searches whose keys never fall: a radix heap.
//!
//! Ahuja, Mehlhorn, Orlin and Tarjan, "Faster algorithms for the shortest path problem", Journal
//! of the ACM 37(2), 1990 (from memory). Among equal keys the latest comes out first, which lets a
//! search run straight ahead where many ways are equally good.

/// Nodes by key; a key below the last one taken out counts as that one.
#[derive(Clone, Debug)]
pub(super) struct Queue {
    /// Bucket `i` holds keys that first differ from `last` in bit `i - 1`; bucket 0 equal keys.
    buckets: Vec<Vec<(u64, u32)>>,
    /// Bit `i - 1` is set if bucket `i` holds something.
    filled: u64,
    last: u64,
}

impl Queue {
    pub fn new() -> Self {
        Self {
            buckets: vec![Vec::new(); 65],
            filled: 0,
            last: 0,
        }
    }

    /// Empties the queue for keys from 0 on.
    pub fn clear(&mut self) {
        self.buckets.iter_mut().for_each(Vec::clear);
        self.filled = 0;
        self.last = 0;
    }

    pub fn push(&mut self, key: u64, node: u32) {
        let key = key.max(self.last);
        self.put(key, node);
    }

    pub fn pop(&mut self) -> Option<(u64, u32)> {
        if self.buckets[0].is_empty() {
            self.refill()?;
        }
        self.buckets[0].pop()
    }

    fn put(&mut self, key: u64, node: u32) {
        let bucket = (64 - (key ^ self.last).leading_zeros()) as usize;
        self.buckets[bucket].push((key, node));
        if let Some(bit) = bucket.checked_sub(1) {
            self.filled |= 1 << bit;
        }
    }

    /// Moves on to the least key and spreads its bucket over the lower ones.
    fn refill(&mut self) -> Option<()> {
        let bucket = self.filled.trailing_zeros() as usize + 1;
        let mut items = std::mem::take(self.buckets.get_mut(bucket)?);
        self.filled &= self.filled - 1;
        self.last = items.iter().map(|item| item.0).min()?;
        for (key, node) in items.drain(..) {
            self.put(key, node);
        }
        self.buckets[bucket] = items;
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use super::super::random::Random;
    use super::*;

    #[test]
    fn keys_come_out_in_order() {
        let mut random = Random::new(5);
        let mut queue = Queue::new();
        let mut waiting = std::collections::BTreeMap::new();
        let mut last = 0;
        for round in 0..5_000u32 {
            let width = random.below(30);
            let key = last + random.below(1 << width) as u64;
            queue.push(key, round);
            *waiting.entry(key).or_insert(0) += 1;
            if random.below(3) > 0 {
                last = take(&mut queue, &mut waiting);
            }
        }
        while !waiting.is_empty() {
            take(&mut queue, &mut waiting);
        }
        assert_eq!(queue.pop(), None);
    }

    fn take(queue: &mut Queue, waiting: &mut std::collections::BTreeMap<u64, u32>) -> u64 {
        let (key, _) = queue.pop().unwrap();
        assert_eq!(waiting.keys().next(), Some(&key));
        match waiting[&key] {
            1 => waiting.remove(&key),
            count => waiting.insert(key, count - 1),
        };
        key
    }

    #[test]
    fn equal_keys_come_out_latest_first_and_the_largest_key_is_held() {
        let mut queue = Queue::new();
        queue.push(4, 1);
        queue.push(4, 2);
        queue.push(u64::MAX, 3);
        assert_eq!([queue.pop(), queue.pop()], [Some((4, 2)), Some((4, 1))]);
        assert_eq!(queue.pop(), Some((u64::MAX, 3)));
        queue.push(0, 4);
        assert_eq!(
            queue.pop(),
            Some((u64::MAX, 4)),
            "a key that falls counts as the last"
        );
        queue.clear();
        queue.push(0, 5);
        assert_eq!(queue.pop(), Some((0, 5)));
    }
}
