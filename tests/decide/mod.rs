//! The deciding layer: its linear programs against brute force, and every change it prints made and ranked again.

mod compare;
mod grid;
mod opinion;
mod price;
mod printed;
mod words;
