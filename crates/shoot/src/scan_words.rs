//! Why a scan is not read, in words.

use super::words::{Words, fixed};
use crate::both;
use scene::scan::{Damage, ScanError};

/// Why a scan is not read, and what to do: a clause and a sentence, without the capital at the head and the mark at the end.
pub fn words_of_scan_error(error: &ScanError) -> Words {
    match error {
        ScanError::TooLarge => both!(
            "this file is larger than 64 MB. Export the scan with fewer triangles, or without pictures";
            "diese Datei ist größer als 64 MB. Exportiere den Scan mit weniger Dreiecken oder ohne Bilder"
        ),
        ScanError::TooManyTriangles => both!(
            "this scan has more than 2 million triangles. Export it with fewer; 100 000 show a room well";
            "dieser Scan hat mehr als 2 Millionen Dreiecke. Exportiere ihn mit weniger; 100 000 zeigen einen Raum gut"
        ),
        ScanError::TooManyParts => both!(
            "this scan has more parts than a room has. Export it as fewer objects";
            "dieser Scan hat mehr Teile als ein Raum. Exportiere ihn als weniger Objekte"
        ),
        ScanError::UnknownKind => both!(
            "this is neither glTF 2.0 (.glb, .gltf) nor OBJ text. Export the scan as .glb";
            "das ist weder glTF 2.0 (.glb, .gltf) noch OBJ-Text. Exportiere den Scan als .glb"
        ),
        ScanError::WrongVersion => both!(
            "only version 2 of glTF can be read. Export the scan again as glTF 2.0, best as .glb";
            "nur Version 2 von glTF lässt sich lesen. Exportiere den Scan noch einmal als glTF 2.0, am besten als .glb"
        ),
        ScanError::Compressed => both!(
            "the geometry in this file is compressed. Export it without compression";
            "die Geometrie in dieser Datei ist komprimiert. Exportiere sie ohne Komprimierung"
        ),
        ScanError::OtherFile { file } => both!(
            "the points are in another file, \"{file}\", which is not read. Export the scan as one file, .glb";
            "die Punkte sind in einer anderen Datei, \"{file}\", und die wird nicht gelesen. Exportiere den Scan als eine Datei, .glb"
        ),
        ScanError::Damaged(damage) => both!(
            "this file is damaged: {}. Export it again", words_of_damage(damage);
            "diese Datei ist beschädigt: {}. Exportiere sie noch einmal"
        ),
        ScanError::NoSurfaces { has_points: false } => both!(
            "there are no surfaces in this file. Export the scan as a mesh of triangles";
            "in dieser Datei sind keine Flächen. Exportiere den Scan als Netz aus Dreiecken"
        ),
        ScanError::NoSurfaces { has_points: true } => both!(
            "there are no surfaces in this file, only points or lines. Export the scan as a mesh of triangles";
            "in dieser Datei sind keine Flächen, nur Punkte oder Linien. Exportiere den Scan als Netz aus Dreiecken"
        ),
        ScanError::NotARoom { size } => {
            let [x, y, z] = size.map(|side| fixed(f64::from(side), 2));
            both!(
                "no room of 1 to 60 m each way was found: what was found is {} x {} x {} m. Say the unit of the file if it is \
                 another, or export the room alone", x, y, z;
                "es fand sich kein Raum von 1 bis 60 m in jeder Richtung: gefunden wurden {} x {} x {} m. Nenne die Einheit der \
                 Datei, wenn es eine andere ist, oder exportiere den Raum allein"
            )
        }
    }
}

/// What is damaged in a file.
fn words_of_damage(damage: &Damage) -> Words {
    match damage {
        Damage::Unreadable(why) => {
            both!("its description cannot be read: {why}"; "seine Beschreibung ist nicht zu lesen: {why}")
        }
        Damage::EndsEarly => {
            both!("it ends too early, perhaps because it was not copied whole"; "sie endet zu früh, vielleicht weil sie nicht ganz kopiert wurde")
        }
        Damage::NotBase64 => {
            both!("its embedded data is not written in base64"; "eingebettete Daten sind nicht in base64 geschrieben")
        }
        Damage::BrokenBase64(why) => {
            both!("its embedded data is broken: {why}"; "eingebettete Daten sind kaputt: {why}")
        }
        Damage::NoSuchNode => {
            both!("it refers to a node that is not there"; "sie verweist auf einen Knoten, den es nicht gibt")
        }
        Damage::NoSuchMesh => {
            both!("it refers to a mesh that is not there"; "sie verweist auf ein Netz, das es nicht gibt")
        }
        Damage::NoSuchShape => {
            both!("it has shapes of a kind that does not exist"; "sie enthält Formen einer Art, die es nicht gibt")
        }
        Damage::NoSuchNumbers => {
            both!("it refers to numbers that are not there"; "sie verweist auf Zahlen, die es nicht gibt")
        }
        Damage::BeyondItsData => {
            both!("some of its numbers lie beyond the end of its data"; "einige ihrer Zahlen liegen hinter dem Ende der Daten")
        }
        Damage::NoBinaryPart => {
            both!("its binary part is missing, perhaps because it was not copied whole"; "der Teil mit den Zahlen fehlt, vielleicht weil sie nicht ganz kopiert wurde")
        }
        Damage::NoSuchKindOfNumber => {
            both!("some of its numbers are of a kind that does not exist"; "einige ihrer Zahlen sind von einer Art, die es nicht gibt")
        }
        Damage::NotThreeCoordinates => {
            both!("its points do not have three coordinates"; "ihre Punkte haben nicht drei Koordinaten")
        }
        Damage::ChangesNoPoint => {
            both!("it changes a point that is not there"; "sie ändert einen Punkt, den es nicht gibt")
        }
        Damage::PointsMissing => both!("some of its points are missing"; "einige ihrer Punkte fehlen"),
        Damage::TriangleWithoutPoint => {
            both!("a triangle refers to a point that is not there"; "ein Dreieck verweist auf einen Punkt, den es nicht gibt")
        }
        Damage::FaceWithoutPoint => {
            both!("a face refers to a point that is not there"; "eine Fläche verweist auf einen Punkt, den es nicht gibt")
        }
        Damage::NotAPoint => {
            both!("a point (a line that begins with v) is not three numbers"; "ein Punkt (eine Zeile, die mit v beginnt) hat nicht drei Zahlen")
        }
        Damage::NotANormal => {
            both!("a normal (a line that begins with vn) is not three numbers"; "eine Normale (eine Zeile, die mit vn beginnt) hat nicht drei Zahlen")
        }
        Damage::NotAPlaceInAPicture => {
            both!("a line that begins with vt is not two numbers"; "eine Zeile, die mit vt beginnt, hat nicht zwei Zahlen")
        }
        Damage::NotAFace => {
            both!("a face (a line that begins with f) cannot be read"; "eine Fläche (eine Zeile, die mit f beginnt) ist nicht zu lesen")
        }
        Damage::NotItsText => both!("its text cannot be read"; "ihr Text ist nicht zu lesen"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use answer::Language;

    #[test]
    fn a_scan_is_refused_in_both_languages() {
        let check = |error: ScanError, english: &str, german: &str| {
            let words = words_of_scan_error(&error);
            assert_eq!(words.in_language(Language::English), english);
            assert_eq!(words.in_language(Language::German), german);
        };
        check(
            ScanError::Damaged(Damage::EndsEarly),
            "this file is damaged: it ends too early, perhaps because it was not copied whole. Export it again",
            "diese Datei ist beschädigt: sie endet zu früh, vielleicht weil sie nicht ganz kopiert wurde. Exportiere sie noch einmal",
        );
        check(
            ScanError::NotARoom {
                size: [0.5, 70.25, 2.0],
            },
            "no room of 1 to 60 m each way was found: what was found is 0.50 x 70.25 x 2.00 m. Say the unit of the file if it is \
             another, or export the room alone",
            "es fand sich kein Raum von 1 bis 60 m in jeder Richtung: gefunden wurden 0,50 x 70,25 x 2,00 m. Nenne die Einheit \
             der Datei, wenn es eine andere ist, oder exportiere den Raum allein",
        );
    }
}
