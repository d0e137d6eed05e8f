//! Laws of the family, and what it offers for jobs a designer would recognise.
