//! Lit, off or unsound, by how the bars and a lamp's two contacts are joined.

use super::contacts::Contacts;
use super::toggle::Toggles;

/// The lines and neutrals of the devices (alike numbered), the earth bars, and a lamp's two contacts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supplied {
    /// The outgoing line and neutral of each device.
    pub devices: Vec<[usize; 2]>,
    /// The earth bars.
    pub earth: Vec<usize>,
    /// The lamp's contacts.
    pub lamp: [usize; 2],
}

impl Supplied {
    /// The nets that decide: the bars, then the contacts.
    pub fn watched(&self) -> Vec<usize> {
        self.devices.iter().flatten().chain(&self.earth).chain(&self.lamp).copied().collect()
    }

    /// By the numbers of [`Self::watched`]. Unsound (`None`): two bars joined, no neutral at the lamp, or the line of
    /// another device.
    pub fn lit(&self, joined: &[u8]) -> Option<bool> {
        let (bars, contacts) = joined.split_at_checked(self.devices.len() * 2 + self.earth.len())?;
        let [a, b] = *contacts else { return None };
        // Earth bars are one and the same in any sound wiring.
        let bars_of = |index: usize| &bars[..index];
        let parted = (0..self.devices.len() * 2).all(|it| !bars_of(it).contains(&bars[it]))
            && bars[self.devices.len() * 2..].iter().all(|it| !bars_of(self.devices.len() * 2).contains(it));
        if !parted {
            return None;
        }
        for (one, other) in [(a, b), (b, a)] {
            for device in bars[..self.devices.len() * 2].chunks_exact(2) {
                if one == device[1] {
                    let own = other == device[0];
                    let foreign = !own && bars[..self.devices.len() * 2].iter().step_by(2).any(|it| *it == other);
                    return (!foreign).then_some(own);
                }
            }
        }
        None
    }

    /// Whether every single toggle of these switches changes the lamp and no other does.
    ///
    /// # Errors
    /// As [`Toggles::prove`].
    pub fn prove(&self, contacts: &Contacts, switches: &[usize]) -> Result<super::toggle::Proof, super::TooMany> {
        let watched = self.watched();
        Toggles { watched: &watched, lit: &|it| self.lit(it), switches }.prove(contacts)
    }
}
