//! Shoots, bags and places kept with every saved version.
