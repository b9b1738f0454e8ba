//! Containment: do boxes keep what they should inside: sheath, grommets, room, nothing trapped?
//!
//! Asked for where the ends are made off by hand and the scenario gives it marks; none unless it does.

use super::Judged;
use crate::{exercise::Preparation, marking::code::Criterion};

pub(super) const JUDGED: Judged = Judged {
    criterion: Criterion::Containment,
    is_asked: |it| it.preparation == Preparation::ByHand,
    weight: |it| it.containment,
    is_workmanship: true,
};
