//! The built page, carried inside the program.
