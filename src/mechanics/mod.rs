//! Textbook formulas, one file a subject; no knowledge of parts or files.

pub mod beam;
pub mod bearing;
pub mod column;
pub mod combined;
pub mod gear;
pub mod guide;
pub mod human;
pub mod hydraulics;
pub mod linkage;
pub mod motor;
pub mod plain;
pub mod pneumatics;
pub mod rope;
pub mod screw;
