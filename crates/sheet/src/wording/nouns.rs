//! What things are called: surfaces, ways of lighting, lights, parts of the face, with the cases that German needs.

use crate::fitting::clean;
use crate::voice::{Language, Voice};
use answer::{Carrier, LightName, PicturePart, SourceName, WayId};
use scene::Face;
use scene::figure::LandmarkName;

/// The name of something in the forms that sentences need. In English all cases are the name with its article.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Noun {
    /// By itself: "left wall"; "linke Wand".
    pub bare: String,
    /// As the subject: "the left wall"; "die linke Wand".
    pub the: String,
    /// "the left wall", behind "of"; "der linken Wand", behind nothing.
    pub whose: String,
    /// "the left wall"; "der linken Wand".
    pub dat: String,
    /// "the left wall"; "die linke Wand".
    pub acc: String,
    /// "to the left wall"; "zur linken Wand".
    pub to: String,
}

impl Noun {
    /// An English name, called otherwise by itself than in a sentence.
    fn english(bare: impl Into<String>, the: impl Into<String>) -> Self {
        let the = the.into();
        Noun {
            bare: bare.into(),
            to: format!("to {the}"),
            whose: the.clone(),
            dat: the.clone(),
            acc: the.clone(),
            the,
        }
    }

    /// "die linke Wand hinter der Kamera": adjectives without their endings.
    fn feminine(adjective: &str, noun: &str, after: &str) -> Self {
        let with = |ending: &str| match adjective {
            "" => format!("{noun}{after}"),
            adjective => format!("{adjective}{ending} {noun}{after}"),
        };
        Noun {
            bare: with("e"),
            the: format!("die {}", with("e")),
            whose: format!("der {}", with("en")),
            dat: format!("der {}", with("en")),
            acc: format!("die {}", with("e")),
            to: format!("zur {}", with("en")),
        }
    }

    /// "der Boden, des Bodens".
    fn masculine(noun: &str, whose: &str) -> Self {
        Noun {
            bare: noun.to_owned(),
            the: format!("der {noun}"),
            whose: format!("des {whose}"),
            dat: format!("dem {noun}"),
            acc: format!("den {noun}"),
            to: format!("zum {noun}"),
        }
    }

    /// "das Kinn, des Kinns".
    fn neuter(noun: &str, whose: &str) -> Self {
        Noun {
            bare: noun.to_owned(),
            the: format!("das {noun}"),
            whose: format!("des {whose}"),
            dat: format!("dem {noun}"),
            acc: format!("das {noun}"),
            to: format!("zum {noun}"),
        }
    }

    /// A German noun that is called otherwise by itself than in a sentence.
    fn alone(self, bare: impl Into<String>) -> Self {
        Noun {
            bare: bare.into(),
            ..self
        }
    }

    /// Words behind every form: "die Decke an der Kante zur linken Wand".
    fn followed_by(self, words: &str) -> Self {
        let with = |form: String| format!("{form}{words}");
        Noun {
            bare: with(self.bare),
            the: with(self.the),
            whose: with(self.whose),
            dat: with(self.dat),
            acc: with(self.acc),
            to: with(self.to),
        }
    }
}

/// A name that the photographer has given. It stays as it is; in German it stands in quotation marks, because nothing is
/// known of its gender, its number or its language.
pub(crate) fn named(voice: Voice, name: &str) -> Noun {
    let name = given(name);
    match voice.language {
        Language::English => {
            let first = name.split(' ').next().unwrap_or_default();
            let has_article = ["the", "a", "an"]
                .iter()
                .any(|article| first.eq_ignore_ascii_case(article));
            let the = if has_article {
                name.clone()
            } else {
                format!("the {name}")
            };
            Noun::english(name, the)
        }
        Language::German => {
            let quoted = quote(&name);
            Noun {
                whose: format!("von {quoted}"),
                to: format!("zu {quoted}"),
                the: quoted.clone(),
                dat: quoted.clone(),
                acc: quoted.clone(),
                bare: quoted,
            }
        }
    }
}

/// A name without steering characters and without spaces around it; one that is nothing else stays visible.
fn given(name: &str) -> String {
    let name = clean(name).split_whitespace().collect::<Vec<_>>().join(" ");
    if name.is_empty() { "–".to_owned() } else { name }
}

/// German quotation marks around a text; those within become single ones.
pub(crate) fn quote(text: &str) -> String {
    let mut open = false;
    let within: String = text
        .chars()
        .map(|c| match c {
            '„' => '‚',
            '“' | '”' => '‘',
            '"' => {
                open = !open;
                if open { '‚' } else { '‘' }
            }
            other => other,
        })
        .collect();
    format!("„{within}“")
}

/// A text in the quotation marks of the language.
pub(crate) fn quoted(voice: Voice, text: &str) -> String {
    match voice.language {
        Language::English => format!("\"{text}\""),
        Language::German => quote(text),
    }
}

/// A face of the room.
pub(crate) fn face(voice: Voice, face: Face) -> Noun {
    match voice.language {
        Language::English => {
            let name = face.words();
            Noun::english(name, format!("the {name}"))
        }
        Language::German => match face {
            Face::Left => Noun::feminine("link", "Wand", ""),
            Face::Right => Noun::feminine("recht", "Wand", ""),
            Face::BehindCamera => Noun::feminine("", "Wand", " hinter der Kamera"),
            Face::BehindSitter => Noun::feminine("", "Wand", " hinter der Person"),
            Face::Ceiling => Noun::feminine("", "Decke", ""),
            Face::Floor => Noun::masculine("Boden", "Bodens"),
        },
    }
}

/// A way of lighting: the surface, the board, or the front that makes the light.
pub(crate) fn way(voice: Voice, way: &WayId) -> Noun {
    match way {
        WayId::Face { face: of } => face(voice, *of),
        WayId::Corner { face: of, with } => {
            let (of, with) = (face(voice, *of), face(voice, *with));
            match voice.language {
                Language::English => of.followed_by(&format!(" with {}", with.the)),
                Language::German => {
                    let bare = format!("{}, an der Kante {}", of.bare, with.to);
                    of.followed_by(&format!(" an der Kante {}", with.to)).alone(bare)
                }
            }
        }
        WayId::Standing { name } => named(voice, name),
        WayId::HeldBoard { name } => {
            let board = named(voice, name);
            let bare = format!("{}, {}", board.bare, voice.pick("held", "gehalten"));
            board.alone(bare)
        }
        WayId::Dome => match voice.language {
            Language::English => Noun::english("plastic dome, head turned up", "the plastic dome"),
            Language::German => {
                Noun::feminine("weiß", "Kuppel", "").alone("weiße Kuppel, Blitzkopf nach oben")
            }
        },
        WayId::BounceCard => match voice.language {
            Language::English => Noun::english("bounce card, head turned up", "the bounce card"),
            Language::German => {
                Noun::feminine("ausgezogen", "Karte", "").alone("ausgezogene Karte, Blitzkopf nach oben")
            }
        },
        WayId::Umbrella => match voice.language {
            Language::English => Noun::english("through the umbrella", "the umbrella"),
            Language::German => Noun::masculine("Schirm", "Schirms").alone("durch den Schirm"),
        },
        WayId::Softbox => match voice.language {
            Language::English => Noun::english("from the softbox", "the softbox"),
            Language::German => Noun::feminine("", "Softbox", "").alone("aus der Softbox"),
        },
        WayId::Direct => match voice.language {
            Language::English => Noun {
                to: "to the flash".to_owned(),
                ..Noun::english("straight at the face", "the flash straight at the face")
            },
            Language::German => Noun {
                bare: "gerade auf das Gesicht".to_owned(),
                to: "zum Blitz".to_owned(),
                ..Noun::masculine("Blitz", "Blitzes").followed_by(" gerade auf das Gesicht")
            },
        },
        WayId::Open => match voice.language {
            Language::English => Noun::english("the open", "the open"),
            Language::German => Noun {
                bare: "ins Freie".to_owned(),
                to: "nach draußen".to_owned(),
                ..Noun::neuter("Freie", "Freien")
            },
        },
    }
}

/// A surface by what it is.
pub(crate) fn carrier(voice: Voice, carrier: &Carrier) -> Noun {
    match carrier {
        Carrier::Face { face: of } => face(voice, *of),
        Carrier::Named { name } => named(voice, name),
    }
}

/// A light that is there.
pub(crate) fn light(voice: Voice, light: &LightName) -> Noun {
    match (voice.language, light) {
        (Language::English, LightName::Sky) => Noun::english("sky", "the sky"),
        (Language::German, LightName::Sky) => Noun::masculine("Himmel", "Himmels"),
        (Language::English, LightName::Sun) => Noun::english("sun", "the sun"),
        (Language::German, LightName::Sun) => Noun::feminine("", "Sonne", ""),
        (Language::English, LightName::Moon) => Noun::english("moon", "the moon"),
        (Language::German, LightName::Moon) => Noun::masculine("Mond", "Mondes"),
        (_, LightName::Given { name }) => named(voice, name),
    }
}

/// The flash, or a light that is there.
pub(crate) fn source(voice: Voice, source: &SourceName) -> Noun {
    match (voice.language, source) {
        (Language::English, SourceName::Flash) => Noun::english("flash", "the flash"),
        (Language::German, SourceName::Flash) => Noun::masculine("Blitz", "Blitzes"),
        (_, SourceName::Light { light: name }) => light(voice, name),
    }
}

/// A place on the face; left and right are the sitter's own.
pub(crate) fn landmark(voice: Voice, landmark: LandmarkName) -> &'static str {
    let (english, german) = match landmark {
        LandmarkName::NoseTip => ("tip of the nose", "Nasenspitze"),
        LandmarkName::UnderNose => ("under the nose", "unter der Nase"),
        LandmarkName::CheekUpperLeft => ("left cheek", "linke Wange"),
        LandmarkName::CheekUpperRight => ("right cheek", "rechte Wange"),
        LandmarkName::NoseSideLeft => ("left side of the nose", "linke Nasenseite"),
        LandmarkName::NoseSideRight => ("right side of the nose", "rechte Nasenseite"),
        LandmarkName::Brow => ("between the brows", "zwischen den Brauen"),
        LandmarkName::EyeSocketLeft => ("left eye socket", "linke Augenhöhle"),
        LandmarkName::EyeSocketRight => ("right eye socket", "rechte Augenhöhle"),
        LandmarkName::LipUpper => ("upper lip", "Oberlippe"),
        LandmarkName::LipLower => ("lower lip", "Unterlippe"),
        LandmarkName::Chin => ("chin", "Kinn"),
        LandmarkName::EarLeft => ("left ear", "linkes Ohr"),
        LandmarkName::EarRight => ("right ear", "rechtes Ohr"),
        LandmarkName::Forehead => ("forehead", "Stirn"),
        LandmarkName::EyeLeft => ("left eye", "linkes Auge"),
        LandmarkName::EyeRight => ("right eye", "rechtes Auge"),
        LandmarkName::Vertex => ("top of the head", "Scheitel"),
        LandmarkName::FaceCentre => ("root of the nose", "Nasenwurzel"),
    };
    voice.pick(english, german)
}

/// A part of the picture.
pub(crate) fn part(voice: Voice, part: &PicturePart) -> String {
    match part {
        PicturePart::LitSide => voice.pick("face, lit side", "Gesicht, helle Seite").to_owned(),
        PicturePart::ShadowSide => voice
            .pick("face, shadow side", "Gesicht, Schattenseite")
            .to_owned(),
        PicturePart::Background => voice.pick("background", "Hintergrund").to_owned(),
        PicturePart::LightAlone { light: alone } => {
            let alone = light(voice, alone).bare;
            format!("{alone} {}", voice.pick("alone", "allein"))
        }
    }
}
