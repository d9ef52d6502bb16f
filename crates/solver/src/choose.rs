//! The least faulty way: the search, the gel, where people stand, and the referee.

pub(crate) mod alternatives;
pub(crate) mod confirm;
pub(crate) mod gel;
pub(crate) mod improve;
pub(crate) mod kind;
pub(crate) mod search;
pub(crate) mod stand;
