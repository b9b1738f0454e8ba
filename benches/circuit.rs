//! Time, with its spread. `cargo bench --no-default-features --bench circuit`; the targets are in the comments, for one
//! core of a machine that is not shared. Ratios between lines of one run hold anywhere.

#![allow(
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a bench that meets the unexpected should stop there"
)]

mod jobs;

use divan::{Bencher, black_box};
use switchdrop::{
    attempt::open,
    circuit::{Layered, ever_joined, rows, states, survey},
};

use jobs::wirings::{LAMP, LINE, Wiring, house, in_line};

fn main() {
    divan::main();
}

/// The two-way exercise.
mod two_way {
    use super::{Bencher, black_box, jobs, rows, survey};

    /// Under 50 microseconds.
    #[divan::bench]
    fn all_positions(bencher: Bencher) {
        let attempt = jobs::opened().replay().expect("a model");
        bencher.bench_local(|| rows(black_box(attempt.work())));
    }

    /// Under 1 ms.
    #[divan::bench]
    fn every_case(bencher: Bencher) {
        let attempt = jobs::opened().replay().expect("a model");
        bencher.bench_local(|| survey(black_box(attempt.work())));
    }

    /// The same where something is wrong.
    #[divan::bench]
    fn every_case_of_a_wrong_wiring(bencher: Bencher) {
        let attempt = jobs::opened().replay().expect("a model");
        let work = jobs::broken(attempt.work());
        bencher.bench_local(|| survey(black_box(&work)));
    }
}

/// Marking: no more than four times reading.
mod marking {
    use super::{black_box, jobs, open};

    #[divan::bench]
    fn only_read() -> usize {
        open(black_box(jobs::TWO_WAY)).map_or(0, |it| it.lines.len())
    }

    #[divan::bench]
    fn read_and_marked() -> u32 {
        jobs::marked(black_box(jobs::TWO_WAY)).marks
    }
}

/// Rows of one group with exact volts: 16,384 under 20 ms.
#[divan::bench(args = [4, 6, 7])]
fn rows_of_pairs(bencher: Bencher, pairs: usize) {
    let work = in_line(pairs);
    bencher.bench_local(|| rows(black_box(&work)));
}

/// Forty switches in twelve circuits: under 2 ms for every set of lights with its count, with a residual current device each
/// or behind two of them.
#[divan::bench(args = [false, true])]
fn forty_switches_in_twelve_circuits(bencher: Bencher, common: bool) {
    let work = house(common);
    bencher.bench_local(|| states(black_box(&work)));
}

/// The joined view.
mod joined {
    use super::{Bencher, LAMP, LINE, Layered, Wiring, black_box, ever_joined, jobs};

    /// Lit or off in all of 16,384, under 1 ms.
    #[divan::bench]
    fn lit_or_off_of_14(bencher: Bencher) {
        let contacts = Wiring::n_way(14).contacts();
        bencher.bench_local(|| {
            let graph = Layered::new(black_box(&contacts), &[LINE, LAMP[0]], &[]).expect("a chain");
            let mut lit = 0;
            for row in 0..1_u32 << 14 {
                let positions: [u8; 14] = std::array::from_fn(|it| (row >> it & 1) as u8);
                lit += u32::from(graph.are_joined(&positions, 0, 1));
            }
            lit
        });
    }

    /// Under 1 ms at 24; at 100 at most ten times as long.
    #[divan::bench(args = [24, 100])]
    fn proof_of_the_right_wiring(bencher: Bencher, n: usize) {
        let wiring = Wiring::n_way(n);
        bencher.bench_local(|| jobs::prove(black_box(&wiring)));
    }

    /// A thousand, so under 1 s.
    #[divan::bench(args = [24])]
    fn proofs_of_1000_random_wirings(bencher: Bencher, n: usize) {
        let wirings = jobs::random(1000, n);
        bencher.bench_local(|| wirings.iter().filter(|it| jobs::prove(it)).count());
    }

    #[divan::bench(args = [24, 100])]
    fn what_is_ever_energised(bencher: Bencher, n: usize) {
        let contacts = Wiring::n_way(n).contacts();
        bencher.bench_local(|| ever_joined(black_box(&contacts), LINE));
    }
}
