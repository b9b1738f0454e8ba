//! Work on many files with all cores, and their answers in order, each as soon as it and those before it are there.

use std::{
    collections::BTreeMap,
    io, num, panic,
    sync::{
        Condvar, Mutex, PoisonError,
        atomic::{AtomicUsize, Ordering},
        mpsc::{Sender, channel},
    },
    thread,
};

/// Answers that may be there before their turn: what keeps memory flat while one slow file holds up the others.
const AHEAD: usize = 64;

/// How many answers have been given. Whoever is too far ahead waits for it.
#[derive(Default)]
struct Turn {
    given: Mutex<usize>,
    moved: Condvar,
}

impl Turn {
    fn is(&self, given: usize) {
        *self.given.lock().unwrap_or_else(PoisonError::into_inner) = given;
        self.moved.notify_all();
    }

    fn wait_for(&self, index: usize) {
        let given = self.given.lock().unwrap_or_else(PoisonError::into_inner);
        let ahead = |given: &mut usize| given.saturating_add(AHEAD) <= index;
        drop(self.moved.wait_while(given, ahead).unwrap_or_else(PoisonError::into_inner));
    }
}

/// Lets everybody go if a worker breaks down, so that nobody waits for its answer.
struct LetGo<'a>(&'a Turn);

impl Drop for LetGo<'_> {
    fn drop(&mut self) {
        if thread::panicking() {
            self.0.is(usize::MAX);
        }
    }
}

/// Does `job` on each item, with what one core keeps between its items (`begin`), and gives the answers to `say` in order.
///
/// # Errors
/// The first of `say`; what is left is not done then.
pub fn in_turn<T: Sync, K, A: Send>(
    items: &[T],
    begin: impl Fn() -> K + Sync,
    job: impl Fn(&mut K, &T) -> A + Sync,
    mut say: impl FnMut(&T, A) -> io::Result<()>,
) -> io::Result<()> {
    let cores = thread::available_parallelism().map_or(1, num::NonZero::get).min(items.len());
    if cores <= 1 {
        let mut kept = begin();
        return items.iter().try_for_each(|it| say(it, job(&mut kept, it)));
    }
    let (next, turn) = (AtomicUsize::new(0), Turn::default());
    let (sender, receiver) = channel();
    let work = |sender: Sender<(usize, A)>| {
        let _let_go = LetGo(&turn);
        let mut kept = begin();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(index) else { break };
            turn.wait_for(index);
            // Nobody listens any more once an answer could not be given.
            if sender.send((index, job(&mut kept, item))).is_err() {
                break;
            }
        }
    };
    thread::scope(|scope| {
        let workers: Vec<_> = (0..cores)
            .map(|_| {
                let (sender, work) = (sender.clone(), &work);
                scope.spawn(move || work(sender))
            })
            .collect();
        drop(sender);
        let (mut waiting, mut given, mut done) = (BTreeMap::new(), 0, Ok(()));
        for (index, answer) in &receiver {
            waiting.insert(index, answer);
            while let Some((item, answer)) = items.get(given).zip(waiting.remove(&given)) {
                if done.is_ok() {
                    done = say(item, answer);
                }
                given += 1;
                if done.is_err() {
                    // The rest is left undone.
                    next.store(items.len(), Ordering::Relaxed);
                }
                turn.is(given);
            }
        }
        for it in workers {
            it.join().unwrap_or_else(|it| panic::resume_unwind(it));
        }
        done
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_come_in_order_whoever_is_done_first() {
        let items: Vec<u64> = (0..300).collect();
        let mut said = Vec::new();
        let job = |(): &mut (), it: &u64| {
            thread::sleep(std::time::Duration::from_micros(if it.is_multiple_of(97) { 3000 } else { it * 7 % 11 }));
            it * 2
        };
        in_turn(
            &items,
            || (),
            job,
            |it, answer| {
                said.push((*it, answer));
                Ok(())
            },
        )
        .unwrap();
        assert_eq!(said, items.iter().map(|it| (*it, it * 2)).collect::<Vec<_>>());
    }

    #[test]
    fn when_an_answer_cannot_be_given_the_rest_is_left() {
        let items: Vec<u64> = (0..10_000).collect();
        let (tried, mut said) = (AtomicUsize::new(0), 0);
        let job = |(): &mut (), _: &u64| tried.fetch_add(1, Ordering::Relaxed);
        let done = in_turn(
            &items,
            || (),
            job,
            |_, _| {
                said += 1;
                if said == 5 { Err(io::ErrorKind::BrokenPipe.into()) } else { Ok(()) }
            },
        );
        assert_eq!((done.map_err(|it| it.kind()), said), (Err(io::ErrorKind::BrokenPipe), 5));
        assert!(tried.load(Ordering::Relaxed) <= 5 + 2 * AHEAD + 64, "{tried:?}");
    }
}
