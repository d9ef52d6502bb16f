//! Drawn pages become a PDF file.
