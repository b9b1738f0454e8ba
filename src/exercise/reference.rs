//! The reference for earth: what a place's earth is shown from, and where a parked probe finds an earth if there is
//! none at the place.
//!
//! It is outside the board, behind no plate: nothing is opened for it (trade practice; see the charter, "Dead tests").

use serde::{Deserialize, Serialize};

use super::{
    placed::Placed,
    rows::TerminalUse,
    table::{LocationId, TerminalId},
    tables::Exercise,
};

/// A reference as a file names it.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(rename = "Reference")]
pub(super) enum ReferenceFile<'a> {
    /// None: dead tests go by pairs.
    #[default]
    Nothing,
    /// The main earthing terminal beside the board. Its address is that of the board's earth bar, to which it is joined.
    EarthingTerminal,
    /// A socket of a circuit that stays on, by its location; reached with a plug-in lead.
    Socket(#[serde(borrow)] Placed<'a, String>),
}

impl ReferenceFile<'_> {
    pub(super) const fn is_nothing(&self) -> bool {
        matches!(self, Self::Nothing)
    }
}

/// The point from which earths are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reference {
    /// Its earth.
    pub earth: TerminalId,
    /// Its line, where it has one: a socket's.
    pub line: Option<TerminalId>,
}

impl Reference {
    /// Whether a terminal is its earth or its line, which a long or a plug-in lead reaches from anywhere.
    pub fn has(&self, terminal: TerminalId) -> bool {
        self.earth == terminal || self.line == Some(terminal)
    }
}

impl Exercise {
    /// The earthing terminal beside the first board.
    pub(super) fn earthing_terminal(&self) -> Option<TerminalId> {
        self.earth_bars().next()
    }

    /// Earth and line of the socket at a location, if it is one; `None` also if its circuit is to be isolated,
    /// whose earth would be one of those in question.
    pub(super) fn socket_reference(&self, location: LocationId) -> Option<Reference> {
        let socket = self.locations[location].kind.fixed().filter(|it| it.id == SOCKET)?;
        let line = (0..socket.terminals.len() as u8).find(|it| socket.name_of(usize::from(*it)) == "L")?;
        let earth = self.terminal_used(location, TerminalUse::PlateEarth)?;
        let line = self.terminal_used(location, TerminalUse::Block(line))?;
        let off: Vec<_> = self.learners_places().into_iter().flat_map(|it| self.devices_reaching(it)).collect();
        let own = self.devices_reaching(location);
        let stays_on = !own.is_empty() && own.iter().all(|it| !off.contains(it));
        stays_on.then_some(Reference { earth, line: Some(line) })
    }
}

/// The catalogue's socket-outlet.
const SOCKET: &str = "Socket";
