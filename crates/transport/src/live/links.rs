//! From which parts of the room a receiver gets its light: a short list of patches, and of groups of
//! patches where these are small as seen from it.
//!
//! The flat patches of every object are gathered two and two into a tree (Hanrahan, Salzman & Aupperle
//! 1991). A receiver goes down the tree until a group sends it little enough to be taken as evenly bright.
//! The factor of a flat patch is worked out, not counted from rays, so that neighbours differ by what is
//! true and not by chance; a ray each says what stands in between.

use super::bodies::{Bodies, Glimpse};
use super::receiver::Receiver;
use crate::kronecker::{STEP_2, step};
use crate::lambert::polygon_factor;
use crate::leg::GRAZING;
use crate::patches::Patch;
use crate::rng::Rng;
use crate::room::Room;
use crate::scatter::cosine_direction;
use crate::tracer::Hit;
use colour::Spectrum;
use glam::{DVec3, Vec3};
use scene::ObjectKind;
use std::f32::consts::PI;

/// A group is taken as one when it fills less of the hemisphere than this, cosine weighed (ours: about
/// 200 links per receiver) ...
const SMALL_FACTOR: f32 = 1.0 / 90.0;
/// ... and when its edge over its distance is below this.
const SMALL_ANGLE: f32 = 0.45;
/// Up to this edge over distance, four points tell a node's factor (to better than a thousandth).
const POINT_ANGLE: f32 = 0.2;
/// A node is split where the factors per area of its halves differ by more than this, over their sum, and
/// so often at most.
const UNEVEN: f32 = 0.12;
const MOST_SPLITS: usize = 2;
/// What fills more than this is looked at with two rays.
const LOOK_TWICE: f32 = 0.5 * SMALL_FACTOR;
/// How many rays look at what has an edge in it.
const MOST_LOOKS: usize = 6;
/// After how many points in all a receiver takes one below its horizon, where there may be none above.
const MOST_TRIES: u32 = 24;
/// What sends less than this is left out; in all well below a thousandth.
const NO_FACTOR: f32 = 1e-6;
/// A ray to a point of the shell has met it when it has gone this share of the way: the rest is rounding.
const ALL_THE_WAY: f32 = 0.999;
/// A receiver sees the front of a node from this far above its plane, in metres; nearer, the factor is rounding.
const IN_FRONT: f32 = 1e-6;
/// A coat that mirrors less than this in all has no shares.
const NO_GLOSS: f32 = 1e-9;
/// Rays that look for people where no closed room stands behind them.
const OPEN_RAYS: usize = 64;

/// A part of the light that a receiver gets: a patch, a group or a part of a body, and its share of the hemisphere.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Link {
    pub node: u32,
    pub weight: f32,
    /// Its share of what the coat mirrors towards the camera; all shares of a receiver make at most one.
    pub gloss: f32,
}

/// What a receiver sees: nodes of the tree, and points of bodies.
pub(crate) struct Outlook {
    links: Vec<Link>,
    bodies: Vec<Glimpse>,
    /// What the coat mirrors in all, seen or hidden below the surface.
    mirrored: f32,
}

/// A group of neighbouring patches of one rectangle, or one patch.
struct Node {
    corner: Vec3,
    a: Vec3,
    b: Vec3,
    normal: Vec3,
    area: f32,
    /// The two halves; `None` for a patch.
    halves: Option<[u32; 2]>,
}

/// All flat patches as trees.
pub(crate) struct Tree {
    /// The patches in their own order, then groups, parts before the whole. Patches of bodies are nodes
    /// without area.
    nodes: Vec<Node>,
    patches: usize,
    /// The topmost group of every rectangle, and whether it belongs to the room's shell.
    roots: Vec<(u32, bool)>,
    /// Whether the shell surrounds everything.
    closed: bool,
}

impl Tree {
    pub fn new(room: &Room) -> Self {
        let mut tree = Tree {
            nodes: room.patches.list.iter().map(leaf).collect(),
            patches: room.patches.list.len(),
            roots: Vec::new(),
            closed: false,
        };
        let mut first = 0;
        let mut faces = 0;
        for (index, object) in room.geometry.objects.iter().enumerate() {
            let count = room.patches.list[first..]
                .iter()
                .take_while(|patch| patch.object == index as u32)
                .count();
            if let (Some([_, a, _]), true) = (object.rectangle, count > 0) {
                let columns = (a.length() / tree.nodes[first].a.length()).round() as usize;
                let grid = PatchGrid { first, columns };
                let root = tree.group(&grid, [0, columns], [0, count / columns]);
                let shell = matches!(object.kind, ObjectKind::RoomFace(_) | ObjectKind::Opening(_));
                faces += usize::from(matches!(object.kind, ObjectKind::RoomFace(_)));
                tree.roots.push((root, shell));
            }
            first += count;
        }
        tree.closed = faces >= 6;
        tree
    }

    /// Puts a block of patches together and returns its node: halves along the longer side, and so on.
    fn group(&mut self, grid: &PatchGrid, columns: [usize; 2], rows: [usize; 2]) -> u32 {
        let (wide, high) = (columns[1] - columns[0], rows[1] - rows[0]);
        let corner = grid.first + rows[0] * grid.columns + columns[0];
        if wide * high == 1 {
            return corner as u32;
        }
        let (du, dv) = (self.nodes[corner].a, self.nodes[corner].b);
        let across = wide > 1 && (high == 1 || wide as f32 * du.length() >= high as f32 * dv.length());
        let halves = if across {
            let middle = columns[0] + wide / 2;
            [[columns[0], middle], [middle, columns[1]]].map(|part| self.group(grid, part, rows))
        } else {
            let middle = rows[0] + high / 2;
            [[rows[0], middle], [middle, rows[1]]].map(|part| self.group(grid, columns, part))
        };
        let (a, b) = (du * wide as f32, dv * high as f32);
        self.nodes.push(Node {
            corner: self.nodes[corner].corner,
            a,
            b,
            normal: self.nodes[corner].normal,
            area: a.cross(b).length(),
            halves: Some(halves),
        });
        self.nodes.len() as u32 - 1
    }

    /// Radiosity of every node from that of the patches: a group has the mean of its parts.
    pub fn fill(&self, mut radiosity: Vec<Spectrum>) -> Vec<Spectrum> {
        debug_assert_eq!(radiosity.len(), self.patches);
        radiosity.reserve_exact(self.nodes.len() - self.patches);
        for node in &self.nodes[self.patches..] {
            if let Some([p, q]) = node.halves {
                let share = self.nodes[p as usize].area / node.area;
                let mean = radiosity[p as usize] * share + radiosity[q as usize] * (1.0 - share);
                radiosity.push(mean);
            }
        }
        radiosity
    }

    /// Everything that a receiver gets light from.
    pub fn look_round(&self, room: &Room, receiver: &Receiver, seed: u64, place: u64) -> Outlook {
        let mut rng = Rng::new(seed, place);
        let mut view = Outlook {
            links: Vec::with_capacity(320),
            bodies: Vec::new(),
            mirrored: 0.0,
        };
        for &(root, shell) in &self.roots {
            let mut open = vec![root];
            while let Some(index) = open.pop() {
                let node = &self.nodes[index as usize];
                if let (Some(halves), true) = (node.halves, node.is_wide(receiver, SMALL_ANGLE)) {
                    open.extend(halves);
                    continue;
                }
                let factor = node.factor(receiver);
                if factor <= NO_FACTOR {
                    continue;
                }
                match node.halves {
                    Some(halves) if factor > SMALL_FACTOR => open.extend(halves),
                    _ => self.look(room, receiver, (index, shell, factor), &mut rng, &mut view),
                }
            }
        }
        if !self.closed {
            people_around(room, receiver, &mut view);
        }
        view.share_gloss();
        view
    }

    /// The number of patches and groups.
    pub fn len(&self) -> usize {
        self.nodes.len()
    }

    /// Looks from the receiver towards a node and adds what is there: the node itself, a person before it,
    /// or nothing that this node answers for. Boards and furniture have nodes of their own, and people are
    /// counted in front of the shell only, which fills the hemisphere just once.
    fn look(
        &self,
        room: &Room,
        receiver: &Receiver,
        (index, shell, factor): (u32, bool, f32),
        rng: &mut Rng,
        view: &mut Outlook,
    ) {
        let node = &self.nodes[index as usize];
        let (start, mut point) = (rng.pair(), 0);
        let mut seen = [(Look::Nothing, 0.0); MOST_LOOKS];
        let mut looks = 0;
        let mut wanted = if factor > LOOK_TWICE { 2 } else { 1 };
        let open = |found: &Look| matches!(found, Look::Node);
        while looks < wanted {
            let target = node.point_above(receiver, start, &mut point);
            let direction = (target - receiver.start).normalize_or_zero();
            let found = if direction.dot(receiver.flat) <= GRAZING {
                Look::Below
            } else if shell {
                person_or_shell(room, receiver, target, direction)
            } else if room.tracer.sees_surface(receiver.start, target) {
                Look::Node
            } else {
                Look::Nothing
            };
            seen[looks] = (found, receiver.gloss(direction));
            looks += 1;
            // Where the first two see different things there is an edge, and its place matters.
            if looks == 2 && open(&seen[0].0) != open(&seen[1].0) {
                wanted = MOST_LOOKS;
            }
        }
        let before = view.links.len();
        let weight = factor / looks as f32;
        view.add(room, receiver, (index, shell), weight, &seen[..looks]);
        if let Some(link) = view.links.get(before).copied() {
            view.links.truncate(before);
            self.split(receiver, link, MOST_SPLITS, &mut view.links);
        }
    }

    /// Links to the parts of a node instead of the node where its near part fills much more of the
    /// hemisphere than its far part: the light on it may be at one end. What is seen of them is one thing,
    /// and so this takes no more rays.
    fn split(&self, receiver: &Receiver, link: Link, splits: usize, links: &mut Vec<Link>) {
        let halves = self.nodes[link.node as usize].halves;
        if let (Some(halves), true) = (halves, splits > 0) {
            let nodes = halves.map(|half| &self.nodes[half as usize]);
            let factors = nodes.map(|node| node.factor(receiver));
            let sum = factors[0] + factors[1];
            let [near, far] = [0, 1].map(|i| factors[i] / nodes[i].area);
            if sum > 0.0 && (near - far).abs() > UNEVEN * (near + far) {
                for (node, factor) in halves.into_iter().zip(factors) {
                    let share = factor / sum;
                    let part = Link {
                        node,
                        weight: link.weight * share,
                        gloss: link.gloss * share,
                    };
                    if share > 0.0 {
                        self.split(receiver, part, splits - 1, links);
                    }
                }
                return;
            }
        }
        links.push(link);
    }
}

/// What a look towards a node finds.
#[derive(Clone, Copy)]
enum Look {
    /// The node.
    Node,
    /// A person before it: direction and place.
    Person(Vec3, Hit),
    /// Its own triangle: the direction is above the smooth surface only.
    Below,
    /// Something that has a node of its own, or nothing at all.
    Nothing,
}

/// What a receiver sees where a point of the shell is: the shell, or a person.
fn person_or_shell(room: &Room, receiver: &Receiver, target: Vec3, direction: Vec3) -> Look {
    let Some(hit) = room.tracer.closest(receiver.start, direction) else {
        return Look::Nothing;
    };
    if is_body(room, &hit) {
        Look::Person(direction, hit)
    } else if hit.distance >= ALL_THE_WAY * target.distance(receiver.start) {
        Look::Node
    } else {
        Look::Nothing
    }
}

fn is_body(room: &Room, hit: &Hit) -> bool {
    let object = room.geometry.object[hit.triangle as usize];
    room.geometry.objects[object as usize].rectangle.is_none()
}

/// The rectangle that a tree stands on: its first patch and how many stand in a row.
struct PatchGrid {
    first: usize,
    columns: usize,
}

fn leaf(patch: &Patch) -> Node {
    let [corner, a, b] = patch.rectangle.unwrap_or([patch.centre, Vec3::ZERO, Vec3::ZERO]);
    Node {
        corner,
        a,
        b,
        normal: patch.normal,
        area: if patch.rectangle.is_some() {
            patch.area
        } else {
            0.0
        },
        halves: None,
    }
}

impl Node {
    /// Whether the node is wider than this angle, as seen from the receiver.
    fn is_wide(&self, receiver: &Receiver, angle: f32) -> bool {
        let middle = self.corner + 0.5 * (self.a + self.b);
        let distance2 = (middle - receiver.start).length_squared();
        let edge2 = self.a.length_squared().max(self.b.length_squared());
        edge2 > angle * angle * distance2
    }

    /// The `index`-th point of the node at which a receiver looks, above its horizon if one can be found:
    /// a Kronecker sequence from a start of the receiver's own.
    fn point_above(&self, receiver: &Receiver, start: [f32; 2], index: &mut u32) -> Vec3 {
        loop {
            let [s, t] = step(start, STEP_2, *index);
            let target = self.corner + self.a * s + self.b * t;
            *index += 1;
            if (target - receiver.start).dot(receiver.normal) > 0.0 || *index > MOST_TRIES {
                return target;
            }
        }
    }

    /// Share of the receiver's hemisphere, cosine weighed, that the front of the node fills.
    fn factor(&self, receiver: &Receiver) -> f32 {
        let away = (receiver.start - self.corner).dot(self.normal);
        if away <= IN_FRONT {
            return 0.0;
        }
        let corners = [
            self.corner,
            self.corner + self.a,
            self.corner + self.a + self.b,
            self.corner + self.b,
        ];
        let heights = corners.map(|c| (c - receiver.start).dot(receiver.normal));
        if heights.iter().all(|&h| h <= 0.0) {
            return 0.0;
        }
        if !self.is_wide(receiver, POINT_ANGLE) && heights.iter().all(|&h| h >= 0.0) {
            // Far off and wholly above the horizon, four points stand for it (2 % at worst, mostly far less).
            return self.factor_by_points(receiver, away);
        }
        let exact = corners.map(|c| (c - receiver.start).as_dvec3());
        polygon_factor(DVec3::ZERO, receiver.normal.as_dvec3(), &exact) as f32
    }

    fn factor_by_points(&self, receiver: &Receiver, away: f32) -> f32 {
        // Gauss points of degree three along both edges.
        const LOW: f32 = 0.211_324_87;
        let sum: f32 = [
            (LOW, LOW),
            (1.0 - LOW, LOW),
            (LOW, 1.0 - LOW),
            (1.0 - LOW, 1.0 - LOW),
        ]
        .into_iter()
        .map(|(s, t)| {
            let towards = self.corner + self.a * s + self.b * t - receiver.start;
            let distance2 = towards.length_squared();
            towards.dot(receiver.normal).max(0.0) * away / (distance2 * distance2)
        })
        .sum();
        sum * 0.25 * self.area / PI
    }
}

/// Adds the people that a receiver sees in the open, from a fan of rays that is alike for all receivers.
fn people_around(room: &Room, receiver: &Receiver, view: &mut Outlook) {
    let (tangent, bitangent) = receiver.normal.any_orthonormal_pair();
    for ray in 0..OPEN_RAYS {
        let u = (ray as f32 + 0.5) / OPEN_RAYS as f32;
        // The golden ratio spreads the turns evenly.
        let v = (ray as f32 * 0.618_034).fract();
        let local = cosine_direction([u, v]);
        let direction = tangent * local.x + bitangent * local.y + receiver.normal * local.z;
        if direction.dot(receiver.flat) <= GRAZING {
            continue;
        }
        if let Some(hit) = room.tracer.closest(receiver.start, direction)
            && is_body(room, &hit)
        {
            let found = [(Look::Person(direction, hit), receiver.gloss(direction))];
            view.add(room, receiver, (0, true), 1.0 / OPEN_RAYS as f32, &found);
        }
    }
}

impl Outlook {
    /// Adds what some looks at a node have found; each stands for `weight` of the hemisphere.
    fn add(
        &mut self,
        room: &Room,
        receiver: &Receiver,
        (node, shell): (u32, bool),
        weight: f32,
        seen: &[(Look, f32)],
    ) {
        let (mut open, mut gloss) = (0.0, 0.0);
        for &(found, mirrored) in seen {
            match found {
                Look::Node => {
                    open += weight;
                    gloss += weight * mirrored;
                }
                Look::Person(direction, hit) => {
                    let shares = [weight, weight * mirrored];
                    self.bodies
                        .push(Glimpse::new(room, receiver, direction, hit, shares));
                    self.mirrored += weight * mirrored;
                }
                // The shell fills the hemisphere once, so it alone answers for what nothing is seen of.
                Look::Below if shell => self.mirrored += weight * mirrored,
                Look::Below | Look::Nothing => {}
            }
        }
        self.mirrored += gloss;
        if open > 0.0 {
            let weight = open;
            self.links.push(Link { node, weight, gloss });
        }
    }

    /// Makes shares of what the coat mirrors. A few hundred directions cannot tell how much a narrow lobe
    /// mirrors in all, which is known anyway, but do tell from where.
    fn share_gloss(&mut self) {
        let scale = if self.mirrored > NO_GLOSS {
            1.0 / self.mirrored
        } else {
            0.0
        };
        self.links.iter_mut().for_each(|link| link.gloss *= scale);
        self.bodies.iter_mut().for_each(|glimpse| glimpse.gloss *= scale);
    }

    /// Share of the hemisphere, cosine weighed, in which the room is seen past all people.
    pub fn open(&self) -> f32 {
        self.links.iter().map(|link| link.weight).sum()
    }

    pub fn split(self) -> (Vec<Glimpse>, Vec<Link>) {
        (self.bodies, self.links)
    }
}

/// Adds the parts of bodies to a receiver's links, numbered after the `nodes` of the tree, and puts all in
/// order, so that light is read from front to back.
pub(crate) fn merge(mut links: Vec<Link>, glimpses: &[Glimpse], bodies: &Bodies, nodes: usize) -> Vec<Link> {
    links.extend(glimpses.iter().filter_map(|glimpse| {
        Some(Link {
            node: (nodes + bodies.index(&glimpse.part)?) as u32,
            weight: glimpse.weight,
            gloss: glimpse.gloss,
        })
    }));
    links.sort_by_key(|link| link.node);
    links.dedup_by(|next, kept| {
        let same = next.node == kept.node;
        if same {
            kept.weight += next.weight;
            kept.gloss += next.gloss;
        }
        same
    });
    links
}
