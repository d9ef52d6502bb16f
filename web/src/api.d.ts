// Made from schema/api.json by `npm run types`; not to be edited.

export interface paths {
    "/api/about": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What program this is. */
        get: operations["get_about"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/answers": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Asks for the answer to a set-up. */
        post: operations["post_answers"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/answers/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** An answer with its drawings and reasons. */
        get: operations["get_answers_id"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/answers/{id}/card.html": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The card, one file that needs no network. */
        get: operations["get_answers_id_card_html"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/answers/{id}/card.pdf": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The card on paper. */
        get: operations["get_answers_id_card_pdf"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/answers/{id}/light-changed": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** The light has changed by so many stops: the same aim with other settings. */
        post: operations["post_answers_id_light_changed"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/answers/{id}/map": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** How good it is to aim at every part of the room. */
        get: operations["get_answers_id_map"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/begin": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Writes a shoot text from a few fill-ins. */
        post: operations["post_begin"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/edit": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Changes a shoot text and keeps its remarks. */
        post: operations["post_edit"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/export": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Everything as plain shoot files in one archive. */
        get: operations["get_export"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/give": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Takes the bag or the place of a shoot text out, to be kept by itself. */
        post: operations["post_give"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/import": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Takes an archive of plain files, or one of them. */
        post: operations["post_import"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/jobs/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** How far a piece of work is. */
        get: operations["get_jobs_id"];
        put?: never;
        post?: never;
        /** Stops a piece of work. */
        delete: operations["delete_jobs_id"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/jobs/{id}/events": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Follows a piece of work until it ends. */
        get: operations["get_jobs_id_events"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/live": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Makes an answer's place ready for live aiming. */
        post: operations["post_live"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/live/{id}/aim": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The picture of an aim; the header x-aim says in JSON what it does. */
        get: operations["get_live_id_aim"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/live/{id}/table": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What weighs the light of live aiming. */
        get: operations["get_live_id_table"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/pair": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Lets a phone in that shows the secret. */
        post: operations["post_pair"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/phone": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Opens the door to the local network for one phone. */
        post: operations["post_phone"];
        /** Shuts the door to the local network and forgets every phone. */
        delete: operations["delete_phone"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/proofs": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Asks for a proof of an answer. */
        post: operations["post_proofs"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/proofs/{id}/layers": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The lights of the newest picture, in half floats. */
        get: operations["get_proofs_id_layers"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/proofs/{id}/picture.png": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The picture, developed here. */
        get: operations["get_proofs_id_picture_png"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/proofs/{id}/table": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What weighs the lights of a proof. */
        get: operations["get_proofs_id_table"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/scan": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Makes a place of a scan (glTF or OBJ). */
        post: operations["post_scan"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/take": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Puts a kept bag or place into a shoot text. */
        post: operations["post_take"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/understand": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Says what is understood of a shoot text. */
        post: operations["post_understand"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/vocabulary": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The words that a shoot text may use. */
        get: operations["get_vocabulary"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/{kind}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Lists the shoots, bags or places. */
        get: operations["get_kind"];
        put?: never;
        /** Keeps a new document. */
        post: operations["post_kind"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/{kind}/{id}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The newest version of a document. */
        get: operations["get_kind_id"];
        /** Saves a new version, unless another window saved in between (409, with theirs). */
        put: operations["put_kind_id"];
        post?: never;
        /** Removes a document from the list; every version of it can still be brought back. */
        delete: operations["delete_kind_id"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/{kind}/{id}/restore": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Saves an earlier version again as the newest. */
        post: operations["post_kind_id_restore"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/{kind}/{id}/versions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Every saved version, the newest first. */
        get: operations["get_kind_id_versions"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/{kind}/{id}/versions/{version}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** One saved version. */
        get: operations["get_kind_id_versions_version"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
}
export type webhooks = Record<string, never>;
export interface components {
    schemas: {
        /** @description What program this is, and through which door it is seen. */
        About: {
            /** @description The door to the local network. */
            phone: components["schemas"]["PhoneTold"];
            /** @description Where shoots are kept, in words. */
            storage: string;
            /** @description Version of the program. */
            version: string;
            /** @description "here" on this machine, "phone" from the local network. */
            you: components["schemas"]["Seen"];
        };
        /** @description Another answer that is truly different. */
        AlternativeReport: {
            /** @description Settings of the camera. */
            camera: components["schemas"]["CameraReport"];
            /** @description Where the flash points and what carries the light. */
            chosen: components["schemas"]["ChosenReport"];
            /** @description Settings of the flash. */
            flash: components["schemas"]["FlashReport"];
            /** @description What the light does to the face of the first sitter. */
            key: components["schemas"]["KeyReport"];
            /** @description The surface, the board, the bare flash. */
            name: string;
            /**
             * Format: double
             * @description Points against the ask.
             */
            points?: number | null;
            /** @description The one reason to prefer it to the answer. */
            prefer: string;
        };
        /** @description The answer to one set-up. */
        AnswerReport: {
            /** @description Other answers that are truly different, the better first. */
            alternatives: components["schemas"]["AlternativeReport"][];
            /** @description Flash against the light that is there: zones, reach, controls, and settings for later. */
            balance: components["schemas"]["BalanceReport"];
            /** @description Settings of the camera. */
            camera: components["schemas"]["CameraReport"];
            /** @description Cautions where something could hurt. */
            cautions: string[];
            /** @description Where the stops go, in order; gains and losses add up to each result below them. */
            chart: components["schemas"]["ChartLineReport"][];
            /** @description Where the flash points and what carries the light. */
            chosen: components["schemas"]["ChosenReport"];
            /** @description The gel on the flash, and how the colours of the picture lie against the balance. */
            colour: components["schemas"]["ColourReport"];
            /** @description How evenly several sitters are lit; null for one sitter. */
            evenness?: components["schemas"]["EvennessReport"] | null;
            /** @description How the exposure at that face adds up. */
            exposure: components["schemas"]["ExposureReport"];
            /** @description Settings of the flash. */
            flash: components["schemas"]["FlashReport"];
            /** @description What the light does to the face of the first sitter. */
            key: components["schemas"]["KeyReport"];
            /** @description What was insisted on, met or not. */
            limits: components["schemas"]["LimitReport"][];
            /** @description The answer as it is read aloud, lengths in metres. */
            lines: components["schemas"]["LinesReport"];
            /** @description Every aim at the room's surfaces from the flash's place. */
            map: components["schemas"]["MapReport"];
            /** @description Where the first sitter stands instead, in metres, when that was allowed and serves better; else null. */
            moved_to_m?: components["schemas"]["PointReport"] | null;
            /** @description What to do or to know, the important things first. */
            notes: string[];
            /** @description What the unbiased path tracer says. */
            referee: components["schemas"]["RefereeReport"];
            /** @description How the answer moves when one thing is a little different and nothing else is changed. */
            sensitivities: components["schemas"]["SensitivityReport"][];
            /** @description What is short when something insisted on is missed, and what would help; null when all is met. */
            shortfall?: components["schemas"]["ShortfallReport"] | null;
            /** @description Every way of lighting that was considered, the chosen one included. */
            surfaces: components["schemas"]["SurfaceReport"][];
            /** @description What the photographer calls the set-up. */
            title: string;
            /** @description How far the first frame may be off, and why. */
            uncertainty: components["schemas"]["UncertaintyReport"];
            /**
             * Format: uint32
             * @description Version of this shape.
             */
            version: number;
        };
        /** @description An answer as it is told. */
        AnswerTold: {
            /** @description The smallest changes that make an ask possible that cannot be met, each with the shoot text that has it. */
            changes: components["schemas"]["ChangeTold"][];
            /** @description Where the stops go, SVG. */
            chart: string;
            /** @description From above and from the side, SVG. */
            drawing: string;
            /** @description Whether lengths are in feet. */
            feet: boolean;
            /** @description What stands where. */
            geometry: components["schemas"]["Geometry"];
            /** @description What it is called here. */
            id: string;
            /** @description The same three lines in the units of the file. */
            lines: components["schemas"]["LinesReport"];
            /** @description The answer; its map has no cells here, they are given by themselves. */
            report: components["schemas"]["AnswerReport"];
            /**
             * Format: uint
             * @description Which set-up of it.
             */
            set_up: number;
            /** @description The shoot text that it answers. */
            shoot_text: string;
            /** @description The whole answer as printed text. */
            text: string;
        };
        /** @description Flash against the light that is there. */
        BalanceReport: {
            /**
             * Format: double
             * @description The share of everything else.
             */
            ambient_percent?: number | null;
            /** @description What one step of each control does. */
            controls: components["schemas"]["ControlReport"][];
            /**
             * Format: double
             * @description From the nearest to the farthest sharp distance; null when it reaches the horizon.
             */
            depth_of_field_m?: number | null;
            /**
             * Format: double
             * @description The flash's share of the light on the face, in per cent.
             */
            flash_percent?: number | null;
            /** @description Settings for each later time. */
            later: components["schemas"]["LaterReport"][];
            /**
             * @description How far from the face the flash may be, by the inverse square and without what the surroundings send back;
             *     empty unless it shines straight at the face.
             */
            reach: components["schemas"]["ReachReport"][];
            /**
             * Format: double
             * @description The light level, as an exposure value at ISO 100, for which the settings are right, the filter on the lens
             *     included.
             */
            settings_ev?: number | null;
            /** @description Each zone at these settings. */
            zones: components["schemas"]["ZoneReport"][];
        };
        /** @description White balances. */
        Balances: {
            /**
             * Format: uint
             * @description Which one the answer has.
             */
            at: number;
            /** @description Where the multiplied channels are cut. */
            cut: number[];
            /** @description As they are written. */
            labels: string[];
            /** @description From there to linear sRGB: nine numbers, rows first. */
            matrices: number[][];
            /** @description What each multiplies the sensor's three channels by. */
            multipliers: number[][];
        };
        /** @description A board that stands in the place. */
        BoardAt: {
            /**
             * Format: double
             * @description Its height, in metres.
             */
            height: number;
            /** @description What it is called. */
            name: string;
            /**
             * Format: double
             * @description Its width, in metres.
             */
            width: number;
            /**
             * Format: double
             * @description Its middle from the left wall, in metres.
             */
            x: number;
            /**
             * Format: double
             * @description Its middle from the wall behind the camera, in metres.
             */
            y: number;
            /**
             * Format: double
             * @description Its middle from the floor, in metres.
             */
            z: number;
        };
        /** @description How a board is held. */
        BoardReport: {
            /** @description Its middle, in metres. */
            centre_m: components["schemas"]["PointReport"];
            /** @description Its name. */
            name: string;
            /** @description Unit vector out of its front: to the camera's right, away from the wall behind the camera, up. */
            normal: (number | null)[];
            /**
             * Format: double
             * @description From its middle to the face.
             */
            to_face_m?: number | null;
        };
        /** @description Settings of the camera. */
        CameraReport: {
            /** @description Aperture as engraved, such as "f/5.6". */
            aperture: string;
            /**
             * Format: double
             * @description True f-number, such as 5.657 for f/5.6.
             */
            f_number?: number | null;
            /**
             * Format: double
             * @description Speed on the ISO scale.
             */
            iso?: number | null;
            /**
             * Format: double
             * @description Neutral density filter on the lens; 0 when there is none.
             */
            nd_stops?: number | null;
            /** @description Shutter as engraved, such as "1/160". */
            shutter: string;
            /**
             * Format: double
             * @description True shutter time in seconds, such as 0.03125 for 1/30.
             */
            shutter_s?: number | null;
            /**
             * Format: double
             * @description Tint of the white balance as Duv: positive for light that is green.
             */
            tint_duv?: number | null;
            /**
             * Format: int32
             * @description The same in steps of the camera's scale, 0.002 Duv each: positive towards magenta, which green light needs.
             */
            tint_steps: number;
            /**
             * Format: double
             * @description White balance in kelvin.
             */
            white_balance_k?: number | null;
        };
        /** @description A colour cast against the bare flash. */
        CastReport: {
            /**
             * Format: double
             * @description Green (positive) or magenta (negative), in CIE 1960 uv.
             */
            duv?: number | null;
            /**
             * Format: double
             * @description Shift in mired, positive warmer.
             */
            mired?: number | null;
            /**
             * Format: double
             * @description Colour temperature of the light at the face.
             */
            temperature_k?: number | null;
        };
        /** @description One change to the ask, the bag or the place that makes the ask possible. */
        ChangeReport: {
            /**
             * Format: double
             * @description How large the change is.
             */
            amount?: number | null;
            /** @description What it costs the look. */
            cost: string;
            /**
             * Format: double
             * @description How much it asks of the photographer and the picture, in points.
             */
            effort?: number | null;
            /** @description The answer that it leads to, in one line. */
            then: string;
            /** @description Unit of the amount: "stops", "m", "mired", "degrees", "helpers". */
            unit: string;
            /** @description What to do. */
            what: string;
        };
        /** @description A change that would make an ask possible. */
        ChangeTold: {
            /** @description What it costs the look. */
            cost: string;
            /** @description The shoot text with it; null where it cannot be written in a line or two. */
            text?: string | null;
            /** @description The answer that it leads to, in one line. */
            then: string;
            /** @description What to do. */
            what: string;
        };
        /** @description What a line of the stops chart is. */
        ChartKindReport: "start" | "gain" | "loss" | "result";
        /** @description A line of the stops chart. */
        ChartLineReport: {
            /** @description What kind of line. */
            kind: components["schemas"]["ChartKindReport"];
            /** @description What it is. */
            label: string;
            /**
             * Format: double
             * @description Stops, not rounded for printing.
             */
            stops?: number | null;
        };
        /** @description Where the flash points and what carries the light. */
        ChosenReport: {
            /** @description The point that the middle of the beam meets, in metres. */
            aim_m: components["schemas"]["PointReport"];
            /** @description How the board is held; null when none is. */
            board?: components["schemas"]["BoardReport"] | null;
            /** @description The other face of the room for an aim into a corner; else null. */
            corner_with?: string | null;
            /** @description Whether a black card on the sitter's side of the head keeps its direct light off the face. */
            flagged: boolean;
            /** @description Where the flash is, in metres. */
            flash_m: components["schemas"]["PointReport"];
            /**
             * Format: double
             * @description Way from the flash to what it lights first; to the face for a direct flash.
             */
            flash_to_surface_m?: number | null;
            /**
             * Format: double
             * @description Clock hour from which the light comes, seen from above, with the sitter in the middle and the camera at 6.
             */
            light_from_clock?: number | null;
            /** @description The kind of way. */
            route: components["schemas"]["RouteReport"];
            /** @description What carries the light: "left wall", the name of a board or of furniture; "the face itself" for a direct flash. */
            surface: string;
            /**
             * Format: double
             * @description Way from there to the face; 0 for a direct flash.
             */
            surface_to_face_m?: number | null;
            /**
             * Format: double
             * @description Tilt of the head above level.
             */
            tilt_deg?: number | null;
            /**
             * Format: double
             * @description Turn of the head from the line to the sitter, positive to the camera's right.
             */
            turn_deg?: number | null;
            /** @description The aim in words. */
            words: string;
        };
        /** @description What kind of refusal it is, for programs. */
        Code: "bad_request" | "bad_shoot" | "not_found" | "conflict" | "too_large" | "busy" | "not_paired" | "forbidden" | "storage" | "stopped" | "ours";
        /** @description The gel on the flash, and how the colours of the picture lie against the balance. */
        ColourReport: {
            /** @description The gel that the flash wears; null for none. */
            gel?: components["schemas"]["GelReport"] | null;
            /** @description The lights that meet at the face. */
            sources: components["schemas"]["SourceReport"][];
            /** @description What there is to say of mixed light. */
            told: string[];
            /**
             * @description Parts of the picture against the set balance: the sides of the face, the background, and each light that is
             *     there by itself.
             */
            zones: components["schemas"]["ColourZoneReport"][];
        };
        /** @description Part of the picture against the balance. */
        ColourZoneReport: {
            /**
             * Format: double
             * @description Against the balance, positive greener.
             */
            duv?: number | null;
            /**
             * Format: double
             * @description Against the balance, positive warmer; null for a colour without a temperature.
             */
            mired?: number | null;
            /** @description What it is. */
            name: string;
        };
        /** @description What one step of a control does. */
        ControlReport: {
            /**
             * Format: double
             * @description To the ambient part.
             */
            ambient_stops?: number | null;
            /**
             * Format: double
             * @description To all light on the face, with the parts added as amounts.
             */
            face_stops?: number | null;
            /**
             * Format: double
             * @description To the flash's part.
             */
            flash_stops?: number | null;
            /** @description The control. */
            name: string;
            /** @description The step. */
            step: string;
            /** @description To each zone. */
            zones: components["schemas"]["NamedStops"][];
        };
        /** @description All controls. */
        Controls: {
            /** @description Multiplies everything. */
            aperture: components["schemas"]["Steps"];
            /** @description Makes one light neutral. */
            balance: components["schemas"]["Balances"];
            /** @description Weighs the flash's bands. */
            gel: components["schemas"]["GelAt"];
            /** @description Multiplies everything. */
            iso: components["schemas"]["Steps"];
            /** @description Multiplies the flash. */
            power: components["schemas"]["Steps"];
            /** @description Multiplies everything else. */
            shutter: components["schemas"]["Steps"];
        };
        /** @description The tone curve in samples from 0 to `top`, applied to the largest channel. */
        Curve: {
            /**
             * Format: float
             * @description The value of the last sample.
             */
            top: number;
            /** @description The samples. */
            values: number[];
        };
        /** @description A document as it stands in a version. */
        Document: {
            /** @description What it is called here. */
            id: string;
            /** @description What people call it. */
            name: string;
            /** @description When it was saved, universal time. */
            saved_at: string;
            /** @description The text. */
            text: string;
            /**
             * Format: int64
             * @description Counted from 1.
             */
            version: number;
        };
        /** @description What sits on the head of the flash. */
        DressReport: "bare" | "dome" | "bounce_card" | "umbrella" | "softbox";
        /** @description One change to a shoot file. */
        Edit: {
            /** @description Where, beginning at a part: `["ask", "aperture"]`, `["sitter", 0, "from_left"]`, `["place", "furniture", 2]`. */
            path: components["schemas"]["Step"][];
            /**
             * @description What shall stand there; `null` removes what is there.
             * @default null
             */
            value: unknown;
        };
        /** @description Changes to a shoot text, all of them or none. */
        EditRequest: {
            /** @description The changes, in order. */
            edits: components["schemas"]["Edit"][];
            /**
             * @description Parts that the set-up gets a copy of its own of, before anything is changed.
             * @default []
             */
            make_own: string[];
            /**
             * Format: uint
             * @description Which of its set-ups, from 0.
             * @default 0
             */
            set_up: number;
            /** @description The shoot text. */
            text: string;
        };
        /** @description How evenly several sitters are lit. */
        EvennessReport: {
            /** @description Name of the brightest. */
            brightest: string;
            /** @description Name of the darkest. */
            darkest: string;
            /** @description Each sitter against the first. */
            each: components["schemas"]["NamedStops"][];
            /**
             * Format: double
             * @description Brightest minus darkest face, flash alone.
             */
            spread_stops?: number | null;
        };
        /** @description The exposure at the face as answered. */
        ExposureAt: {
            /**
             * Format: double
             * @description The ambient light alone; null in darkness.
             */
            ambient_stops?: number | null;
            /**
             * Format: double
             * @description The flash alone, in stops.
             */
            flash_stops: number;
        };
        /** @description How the exposure at the face adds up, in stops from an exact incident reading. */
        ExposureReport: {
            /**
             * Format: double
             * @description Ambient alone, dome towards the camera; null in darkness.
             */
            ambient_alone_stops?: number | null;
            /** @description Each ambient light as the photographer metered it, against the settings. */
            ambient_as_metered: components["schemas"]["NamedStops"][];
            /**
             * Format: double
             * @description Flash alone at the power in the flash line.
             */
            flash_alone_stops?: number | null;
            /**
             * Format: double
             * @description Exact power in stops below 1/1 for which the flash alone gives 0; negative when it falls short.
             */
            power_for_flash_alone_stops?: number | null;
            /**
             * Format: double
             * @description Exact power in stops below 1/1 for which flash and ambient together give 0; negative when it falls short.
             */
            power_for_total_stops?: number | null;
            /**
             * Format: double
             * @description Flash and ambient together.
             */
            total_stops?: number | null;
        };
        /** @description Settings of the flash. */
        FlashReport: {
            /** @description What sits on the head. */
            dress: components["schemas"]["DressReport"];
            /**
             * Format: double
             * @description Exact power in stops below 1/1; negative when the flash falls short.
             */
            exact_stops_below_full?: number | null;
            /**
             * Format: double
             * @description Stops between the power used and full power; negative when the flash falls short.
             */
            in_hand_stops?: number | null;
            /** @description Nearest power that can be set, such as "1/8 +0.7". */
            power: string;
            /**
             * Format: double
             * @description That power in stops below 1/1.
             */
            stops_below_full?: number | null;
            /**
             * Format: double
             * @description Zoom of the head in millimetres.
             */
            zoom_mm?: number | null;
        };
        /** @description A box that stands square to the walls. */
        FurnitureAt: {
            /**
             * Format: double
             * @description Away from the camera, in metres.
             */
            depth: number;
            /**
             * Format: double
             * @description Up, in metres.
             */
            height: number;
            /** @description What it is called. */
            name: string;
            /**
             * Format: double
             * @description From left to right, in metres.
             */
            width: number;
            /**
             * Format: double
             * @description Nearest corner from the left wall, in metres.
             */
            x: number;
            /**
             * Format: double
             * @description Nearest corner from the wall behind the camera, in metres.
             */
            y: number;
            /**
             * Format: double
             * @description Underside from the floor, in metres.
             */
            z: number;
        };
        /** @description The gel that is worn. */
        GelAt: {
            /**
             * Format: uint
             * @description Which one the answer has.
             */
            at: number;
        };
        /** @description A gel on the flash. */
        GelReport: {
            /**
             * Format: double
             * @description What it costs, in stops.
             */
            loss_stops?: number | null;
            /** @description Its name, such as "1/2 CTO", or of both when two lie on top of one another. */
            name: string;
            /**
             * Format: double
             * @description Change of Duv, positive greener.
             */
            shift_duv?: number | null;
            /**
             * Format: double
             * @description What it does to the bare flash, positive warmer; null for a colour too deep to have a temperature, as below.
             */
            shift_mired?: number | null;
            /**
             * Format: double
             * @description Colour temperature behind it.
             */
            temperature_k?: number | null;
        };
        /** @description A gel, and what it does to a flash in each family. */
        GelWord: {
            /** @description In the amber family. */
            amber?: string | null;
            /** @description What it is called. */
            name: string;
            /** @description In the straw family, "+81 mired, 0.5 stops"; null if that family has none. */
            straw?: string | null;
        };
        /**
         * @description Where everything stands. Metres: x from the left wall, y from the wall behind the camera, z from the floor. Lists are
         *     in the order of the file, so that their positions are those of the plain form.
         */
        Geometry: {
            /** @description Boards that stand in the place. */
            boards: components["schemas"]["BoardAt"][];
            /** @description The lens. */
            camera: components["schemas"]["Point"];
            /** @description Whether the file's lengths are in feet. */
            feet: boolean;
            /** @description The flash, if it was said where it stands. */
            flash?: components["schemas"]["Point"] | null;
            /** @description The furniture. */
            furniture: components["schemas"]["FurnitureAt"][];
            /** @description Lamps that have a place. */
            lamps: components["schemas"]["LampAt"][];
            /** @description Windows and doorways; sides without a wall are not among them. */
            openings: components["schemas"]["OpeningAt"][];
            /** @description The room. */
            room: components["schemas"]["RoomSize"];
            /** @description The sitters. */
            sitters: components["schemas"]["SitterAt"][];
        };
        /** @description A wish for the bag or the place of a shoot text. */
        GiveRequest: {
            /** @description What is taken out. */
            kind: components["schemas"]["PartWord"];
            /**
             * Format: uint
             * @description Which of its set-ups, from 0.
             * @default 0
             */
            set_up: number;
            /** @description The shoot text. */
            text: string;
        };
        /** @description What was taken in. */
        Imported: {
            /** @description Files that were not taken, with the reason. */
            refused: components["schemas"]["NotTaken"][];
            /** @description Documents that are kept now. */
            taken: components["schemas"]["Taken"][];
        };
        /** @description A piece of work as it stands. */
        Job: {
            /**
             * Format: uint
             * @description Pieces that are done before it.
             */
            ahead: number;
            /** @description Why it failed. */
            error?: components["schemas"]["Refusal"] | null;
            /**
             * Format: double
             * @description Part of the whole that is usually done by now, 0 to 1.
             */
            fraction?: number | null;
            /** @description What it is called here; the same request always has the same one. */
            id: string;
            /** @description What it makes. */
            kind: components["schemas"]["Kind"];
            /** @description The newest picture, of a proof. */
            picture?: components["schemas"]["PictureThere"] | null;
            /** @description What is being done, in words. */
            stage?: string | null;
            /** @description How far it is. */
            state: components["schemas"]["State"];
        };
        /** @description What the flash's light does to a face. */
        KeyReport: {
            /**
             * Format: double
             * @description Direction weighted by light, from the nose; positive is the camera's right.
             */
            azimuth_deg?: number | null;
            /** @description Cast of all the flash's light at the face. */
            cast: components["schemas"]["CastReport"];
            /**
             * Format: double
             * @description Height above the eyes.
             */
            elevation_deg?: number | null;
            /**
             * Format: double
             * @description Far cheek against the dome reading.
             */
            far_cheek_stops?: number | null;
            /** @description Cast of the first bounce alone. */
            first_bounce_cast: components["schemas"]["CastReport"];
            /**
             * Format: double
             * @description Aperture (f-number) that full power gives at ISO 100, dome towards the camera.
             */
            full_power_aperture?: number | null;
            /** @description Landmarks of the face against the dome reading. */
            landmarks: components["schemas"]["NamedStops"][];
            /**
             * Format: double
             * @description Near cheek against the dome reading.
             */
            near_cheek_stops?: number | null;
            /**
             * Format: double
             * @description Near cheek over far cheek, to one; null when the far cheek gets nothing.
             */
            ratio?: number | null;
            /**
             * Format: double
             * @description Eye sockets against the forehead; below -1 they go dark.
             */
            sockets_stops?: number | null;
            /**
             * Format: double
             * @description Width of the lit patch over its distance to the face.
             */
            softness?: number | null;
            /**
             * Format: double
             * @description Direct spill of the head on the face against the bounce; null when there is none.
             */
            spill_stops?: number | null;
        };
        /** @description What a piece of work makes. */
        Kind: "answer" | "proof" | "live";
        /** @description A lamp. */
        LampAt: {
            /** @description What it is called. */
            name: string;
            /**
             * Format: double
             * @description From the left wall, in metres.
             */
            x: number;
            /**
             * Format: double
             * @description From the wall behind the camera, in metres.
             */
            y: number;
            /**
             * Format: double
             * @description From the floor, in metres.
             */
            z: number;
        };
        /** @description A kind of lamp. */
        LampWord: {
            /**
             * Format: double
             * @description Its light in lumen.
             */
            lumen: number;
            /** @description What it is called. */
            name: string;
        };
        /** @description Settings for a later time. */
        LaterReport: {
            /**
             * Format: double
             * @description The change of everything but the flash.
             */
            change_stops?: number | null;
            /** @description With a shutter that can be held; null when the first can be. */
            instead?: components["schemas"]["LaterWayReport"] | null;
            /** @description When. */
            name: string;
            /** @description The fewest changes. */
            then: components["schemas"]["LaterWayReport"];
        };
        /** @description One way to meet another light. */
        LaterWayReport: {
            /**
             * Format: double
             * @description Ambient on the face then; null in darkness.
             */
            ambient_stops?: number | null;
            /** @description Settings of the camera. */
            camera: components["schemas"]["CameraReport"];
            /**
             * Format: double
             * @description Flash on the face then.
             */
            flash_stops?: number | null;
            /** @description Power of the flash. */
            power: string;
            /**
             * Format: double
             * @description That power in stops below 1/1.
             */
            stops_below_full?: number | null;
            /** @description What is touched. */
            words: string;
            /** @description Each zone then. */
            zones: components["schemas"]["NamedStops"][];
        };
        /** @description The light has changed. */
        LightChanged: {
            /**
             * Format: double
             * @description By so many stops, -8 to 8; negative is darker.
             */
            stops: number;
        };
        /** @description What to set when the light has changed. */
        LightChangedTold: {
            /** @description The camera line. */
            camera: string;
            /** @description The flash line. */
            flash: string;
            /** @description Whether the look can be kept. */
            possible: boolean;
            /** @description What to do, in words. */
            words: string;
        };
        /** @description What can be insisted on. */
        LimitKindReport: "power" | "least_power" | "recycle" | "cast" | "green_magenta" | "direction" | "height" | "softness" | "ratio" | "evenness" | "background" | "ambient" | "skin_colour" | "room_colour" | "zone";
        /** @description Something insisted on, with what the answer makes of it. */
        LimitReport: {
            /** @description In words, with what was asked. */
            asked: string;
            /**
             * Format: double
             * @description What the answer makes of it.
             */
            found?: number | null;
            /** @description What it is about; this says the unit of `found` and `short` too. */
            kind: components["schemas"]["LimitKindReport"];
            /** @description Whether it is met. */
            met: boolean;
            /**
             * Format: double
             * @description By how much it is missed beyond its tolerance; 0 when it is met.
             */
            short?: number | null;
        };
        /** @description The answer in words. */
        LinesReport: {
            /** @description How sure this is, and what to measure to be surer. */
            about: string;
            /** @description Where to point the flash. */
            aim: string;
            /** @description Such as "f/4 · 1/160 · ISO 400 · 5000 K". */
            camera: string;
            /** @description Such as "1/8 +0.7 · zoom 50 · no gel · 2.3 stops in hand". */
            flash: string;
        };
        /** @description A version without its text. */
        Listed: {
            /** @description What it is called here. */
            id: string;
            /** @description What people call it. */
            name: string;
            /** @description Whether it was removed from the list. */
            removed: boolean;
            /** @description When it was saved, universal time. */
            saved_at: string;
            /**
             * Format: int64
             * @description Counted from 1.
             */
            version: number;
        };
        /** @description A wish for live aiming. */
        LiveRequest: {
            /** @description The answer to start from. */
            answer: string;
        };
        /** @description A look. */
        LookWord: {
            /** @description What it is called. */
            name: string;
            /**
             * Format: double
             * @description Stops of the ambient light against normal.
             */
            stops: number;
        };
        /** @description The best that can be made of aiming at one piece of a face of the room. */
        MapCellReport: {
            /**
             * Format: double
             * @description Angle of all the flash's light from the nose, positive to the camera's right.
             */
            azimuth_deg?: number | null;
            /**
             * Format: double
             * @description Height of all the flash's light above the eyes.
             */
            elevation_deg?: number | null;
            /** @description The face: "left wall", "right wall", "wall behind the camera", "wall behind the sitter", "ceiling", "floor". */
            face: string;
            /**
             * @description Its lower corner along two edges of the face, in metres: on a wall from the left end, seen from inside, and up;
             *     on the ceiling from the wall behind the camera and from the left wall; on the floor from the left wall and from
             *     the wall behind the camera.
             */
            from_m: (number | null)[];
            /**
             * Format: double
             * @description Points against the ask: 0 is what was asked for.
             */
            points?: number | null;
            /** @description Its extent along the same two edges, in metres. */
            size_m: (number | null)[];
            /** @description Its middle, the point aimed at, in metres. */
            target_m: components["schemas"]["PointReport"];
            /** @description Whether it serves. */
            verdict: components["schemas"]["VerdictReport"];
            /** @description Why, or why not. */
            why: string;
            /**
             * Format: double
             * @description Zoom of the head that does best there, in millimetres.
             */
            zoom_mm?: number | null;
        };
        /** @description Every aim at the room's surfaces from one place of the flash. */
        MapReport: {
            /** @description The pieces, face by face; what cannot be aimed at from there is left out. */
            cells: components["schemas"]["MapCellReport"][];
            /** @description The place of the flash, in metres. */
            flash_m: components["schemas"]["PointReport"];
            /** @description Width, length and height of the room, in metres. */
            room_m: (number | null)[];
        };
        /** @description The room unrolled, with how good it is to aim at every part of it. */
        MapTold: {
            /** @description Every piece by itself. */
            cells: components["schemas"]["MapCellReport"][];
            /** @description As a drawing, SVG. */
            svg: string;
        };
        /** @description Something that is wrong with a text. */
        Mistake: {
            /**
             * Format: uint
             * @description The letter in the line, from 1.
             */
            column?: number | null;
            /**
             * Format: uint
             * @description The line, from 1; null if it has no place.
             */
            line?: number | null;
            /** @description What is wrong. */
            message: string;
            /** @description What to do about it. */
            remedy?: string | null;
            /** @description A few words on what stands there. */
            why?: string | null;
        };
        /** @description A name with a difference in mired. */
        NamedMired: {
            /**
             * Format: double
             * @description This light minus the ambient light, in mired, positive warmer.
             */
            mired?: number | null;
            /** @description The ambient light. */
            name: string;
        };
        /** @description A name with an amount of stops. */
        NamedStops: {
            /** @description What it is. */
            name: string;
            /**
             * Format: double
             * @description Stops; null where there is no light at all.
             */
            stops?: number | null;
        };
        /** @description A document to be kept. */
        NewDocument: {
            /** @description What people call it. */
            name: string;
            /** @description The text. */
            text: string;
        };
        /** @description A file that was not taken. */
        NotTaken: {
            /** @description The file. */
            file: string;
            /** @description Why not. */
            why: string;
        };
        /** @description A request that says nothing. */
        Nothing: Record<string, never>;
        /** @description A window or doorway. */
        OpeningAt: {
            /**
             * Format: double
             * @description Lower edge from the floor, in metres.
             */
            from_floor: number;
            /**
             * Format: double
             * @description From the left end of that wall, as seen from inside the room, in metres.
             */
            from_left_end: number;
            /**
             * Format: double
             * @description Its height, in metres.
             */
            height: number;
            /** @description "window", "doorway", "open" or "net curtain". */
            kind: string;
            /** @description What it is called. */
            name: string;
            /** @description The wall that it is in. */
            wall: components["schemas"]["WallName"];
            /**
             * Format: double
             * @description Its width, in metres.
             */
            width: number;
        };
        /** @description A phone's guess. */
        PairRequest: {
            /** @description The secret that was scanned. */
            secret: string;
        };
        /** @description From where to where bright colours are drawn towards their largest channel, and how far at most. */
        Paling: {
            /**
             * Format: float
             * @description Where it begins.
             */
            from: number;
            /**
             * Format: float
             * @description How far then.
             */
            most: number;
            /**
             * Format: float
             * @description Where it is all.
             */
            to: number;
        };
        /** @description A bag or a place by itself. */
        PartText: {
            /** @description Its text. */
            text: string;
        };
        /** @description A kind of part that is kept by itself. */
        PartWord: "bags" | "places";
        /** @description A pattern of the key light. */
        PatternWord: {
            /** @description Degrees round from the nose, from and to. */
            azimuth: number[];
            /** @description Degrees above the eyes, from and to. */
            elevation: number[];
            /** @description What it is called. */
            name: string;
        };
        /** @description A door that was opened, with the secret of the moment. */
        PhoneOpened: {
            /**
             * Format: uint64
             * @description Minutes for which the secret waits.
             */
            minutes: number;
            /** @description The same as a code to scan, SVG. */
            qr: string;
            /** @description The address with the secret, for one phone. */
            url: string;
        };
        /** @description Where the door to the local network stands. */
        PhoneTold: {
            /** @description Whether it is open. */
            open: boolean;
            /**
             * Format: uint32
             * @description Phones that were let in.
             */
            paired: number;
            /** @description Its address, if it is open. */
            url?: string | null;
        };
        /** @description The newest picture of a proof. */
        PictureThere: {
            /**
             * Format: uint32
             * @description Pixels down.
             */
            height: number;
            /**
             * Format: double
             * @description How noisy it still is, per cent of the brightness of skin; null while that cannot be told.
             */
            noise_percent?: number | null;
            /**
             * Format: uint32
             * @description Counted from 1.
             */
            number: number;
            /**
             * Format: uint32
             * @description Pixels across.
             */
            width: number;
        };
        /** @description A point in metres. */
        Point: {
            /**
             * Format: double
             * @description From the left wall.
             */
            x: number;
            /**
             * Format: double
             * @description From the wall behind the camera.
             */
            y: number;
            /**
             * Format: double
             * @description From the floor.
             */
            z: number;
        };
        /** @description A point in the place. */
        PointReport: {
            /**
             * Format: double
             * @description Metres from the wall behind the camera.
             */
            from_behind?: number | null;
            /**
             * Format: double
             * @description Metres from the left wall, as seen from the camera.
             */
            from_left?: number | null;
            /**
             * Format: double
             * @description Metres above the floor.
             */
            height?: number | null;
        };
        /** @description A wish for a proof. */
        ProofRequest: {
            /** @description The answer. */
            answer: string;
            /**
             * Format: uint32
             * @description Pixels across, 64 to 1600; 480 when it is not said.
             * @default null
             */
            width: number | null;
        };
        /** @description The largest distance at which the flash alone exposes the face. */
        ReachReport: {
            /**
             * Format: double
             * @description From the flash to the face.
             */
            distance_m?: number | null;
            /** @description Zoom and power in words: "zoom 105 at 1/1". */
            name: string;
            /**
             * Format: double
             * @description Power in stops below 1/1.
             */
            stops_below_full?: number | null;
            /**
             * Format: double
             * @description Zoom of the head in millimetres.
             */
            zoom_mm?: number | null;
        };
        /** @description What the unbiased path tracer says about the chosen aim. */
        RefereeReport: {
            /**
             * Format: double
             * @description Direction of the key as the referee finds it, from the nose; positive is the camera's right.
             */
            azimuth_deg?: number | null;
            /**
             * Format: double
             * @description Referee minus solved room at the face.
             */
            difference_stops?: number | null;
            /**
             * Format: double
             * @description Height above the eyes as the referee finds it.
             */
            elevation_deg?: number | null;
            /**
             * Format: double
             * @description Standard error of the referee's own reading.
             */
            standard_error_stops?: number | null;
        };
        /** @description A refusal. */
        Refusal: {
            /** @description What kind it is. */
            code: components["schemas"]["Code"];
            /** @description What to do about it. */
            hint?: string | null;
            /** @description What is wrong, in a sentence. */
            message: string;
        };
        /** @description The body of a refusal. */
        RefusalBody: {
            /** @description Why it was refused. */
            error: components["schemas"]["Refusal"];
        };
        /** @description A version to be brought back. */
        Restore: {
            /**
             * Format: int64
             * @description The newest version that is known.
             */
            based_on: number;
            /**
             * Format: int64
             * @description The version that is wanted.
             */
            version: number;
        };
        /** @description Width from left to right, length away from the camera, and height. */
        RoomSize: {
            /**
             * Format: double
             * @description Up to the ceiling, in metres.
             */
            height: number;
            /**
             * Format: double
             * @description From the wall behind the camera to the one behind the sitter, in metres.
             */
            length: number;
            /**
             * Format: double
             * @description From the left wall to the right one, in metres.
             */
            width: number;
        };
        /** @description How the light goes from the flash to the face. */
        RouteReport: "bounce" | "standing" | "held_board" | "direct";
        /** @description A new version of a document. */
        SaveDocument: {
            /**
             * Format: int64
             * @description The version that was being changed.
             */
            based_on: number;
            /** @description What people call it. */
            name: string;
            /** @description The text. */
            text: string;
        };
        /** @description A place that was made of a scan. */
        ScannedPlace: {
            /** @description The part `[place]`. */
            text: string;
            /** @description What was guessed, left out or turned. */
            told: string[];
        };
        /** @description A fault and its points. */
        ScoreReport: {
            /** @description The fault. */
            fault: string;
            /**
             * Format: double
             * @description Its points.
             */
            points?: number | null;
        };
        /** @description From where the page is seen. */
        Seen: "here" | "phone";
        /** @description How the answer moves when one thing is different. */
        SensitivityReport: {
            /**
             * Format: double
             * @description Change of the key's angle from the nose, positive to the camera's right.
             */
            azimuth_deg?: number | null;
            /**
             * Format: double
             * @description Change of the cast, positive warmer.
             */
            cast_mired?: number | null;
            /**
             * Format: double
             * @description Change of the key's height.
             */
            elevation_deg?: number | null;
            /**
             * Format: double
             * @description Change of the exposure at the face.
             */
            exposure_stops?: number | null;
            /** @description The difference, in words. */
            what: string;
        };
        /** @description The name of a set-up. */
        SetUpName: {
            /** @description What it is called. */
            name: string;
        };
        /** @description An ask that cannot be met as it stands. */
        ShortfallReport: {
            /** @description The limits that are missed, the worst first. */
            binding: components["schemas"]["LimitReport"][];
            /** @description The smallest changes that make the ask possible, the least first. */
            changes: components["schemas"]["ChangeReport"][];
            /** @description Changes that were tried and do not help, in words. */
            tried: string[];
            /** @description What is short and by how much, in one sentence. */
            words: string;
        };
        /** @description A sitter. */
        SitterAt: {
            /**
             * Format: double
             * @description Between the eyes from the floor, in metres.
             */
            face_height: number;
            /**
             * Format: double
             * @description Where they look, in degrees: 0 straight at the wall behind the camera, positive to the camera's right.
             */
            facing_deg: number;
            /** @description What they are called. */
            name: string;
            /**
             * Format: double
             * @description Middle of the head from the left wall, in metres.
             */
            x: number;
            /**
             * Format: double
             * @description Middle of the head from the wall behind the camera, in metres.
             */
            y: number;
        };
        /** @description One of the lights that meet at the face. */
        SourceReport: {
            /**
             * Format: double
             * @description Duv as it arrives.
             */
            duv?: number | null;
            /** @description "flash", or the name of the light. */
            name: string;
            /**
             * Format: double
             * @description Part of the light at the face, dome towards the camera.
             */
            share?: number | null;
            /**
             * Format: double
             * @description Colour temperature as it arrives at the face.
             */
            temperature_k?: number | null;
        };
        /** @description What must be known of a room and a sitter to begin; every field in the notation of a shoot file. */
        StartForm: {
            /**
             * @description Up to its ceiling.
             * @default 2.6 m
             */
            ceiling: string;
            /**
             * @description What its ceiling is made of.
             * @default white paint
             */
            ceiling_surface: string;
            /**
             * @description Length of the room, from behind the camera to behind the sitter: "5.5 m" or "18 ft".
             * @default 5.5 m
             */
            length: string;
            /**
             * @description The light that is there: the name of a usual light, or "dark".
             * @default living room evening
             */
            light: string;
            /**
             * @description The pattern of the key light.
             * @default loop
             */
            look: string;
            /**
             * @description From the camera to the sitter.
             * @default 2.0 m
             */
            sitter_distance: string;
            /**
             * @description The sitter's skin.
             * @default intermediate
             */
            skin: string;
            /**
             * @description What the shoot is called.
             * @default My shoot
             */
            title: string;
            /**
             * @description What its walls are made of.
             * @default white paint
             */
            wall: string;
            /**
             * @description Its width.
             * @default 4.4 m
             */
            width: string;
        };
        /** @description How far a piece of work is. */
        State: "waiting" | "working" | "done" | "failed" | "stopped";
        /** @description One step of a path. */
        Step: number | string;
        /** @description A control with its settings and what each multiplies. */
        Steps: {
            /**
             * Format: uint
             * @description Which one the answer has.
             */
            at: number;
            /** @description What each multiplies the light by, against the answer. */
            factors: number[];
            /** @description As they are written. */
            labels: string[];
        };
        /** @description One way of lighting: its best aim, what it would do and what is wrong with it. */
        SurfaceReport: {
            /** @description Difference between this light and each ambient light. */
            against_ambient: components["schemas"]["NamedMired"][];
            /** @description The point aimed at, in metres. */
            aim_m: components["schemas"]["PointReport"];
            /** @description The other face of the room for an aim into a corner; else null. */
            corner_with?: string | null;
            /** @description What it would do to the face; null where no light could get there. */
            key?: components["schemas"]["KeyReport"] | null;
            /** @description In the photographer's words. */
            name: string;
            /**
             * Format: double
             * @description Exact power in stops below 1/1 for flash alone at 0 with the answer's camera settings; negative when it falls
             *     short.
             */
            power_for_flash_alone_stops?: number | null;
            /** @description The kind of way. */
            route: components["schemas"]["RouteReport"];
            /** @description What was lost in the score, in points; the sum ranks the ways. */
            score: components["schemas"]["ScoreReport"][];
            /** @description What carries the light. */
            surface: string;
            /** @description Whether it serves. */
            verdict: components["schemas"]["VerdictReport"];
            /** @description Why, or why not. */
            why: string;
            /**
             * Format: double
             * @description Stops gained on this way by zooming from 50 to 105 mm.
             */
            zoom_gain_stops?: number | null;
            /**
             * Format: double
             * @description Zoom of the head in millimetres.
             */
            zoom_mm?: number | null;
        };
        /** @description A surface known by name. */
        SurfaceWord: {
            /** @description What is meant. */
            meaning: string;
            /** @description What it is called. */
            name: string;
            /**
             * Format: double
             * @description Part of the light that comes back, 0 to 1.
             */
            reflectance: number;
        };
        /** @description What weighs the planes of a picture. */
        Table: {
            /** @description The controls. */
            controls: components["schemas"]["Controls"];
            /** @description The tone curve. */
            curve: components["schemas"]["Curve"];
            /** @description The exposure at the face. */
            exposure: components["schemas"]["ExposureAt"];
            /** @description Gels for the flash; the first is none. Empty where the flash is a single plane. */
            gels: components["schemas"]["TableGel"][];
            /** @description The lights in the order of their planes. */
            lights: components["schemas"]["TableLight"][];
            /** @description What keeps highlights from looking like coloured plastic. */
            paling: components["schemas"]["Paling"];
            /**
             * Format: double
             * @description The value at which a channel of the sensor is at its limit.
             */
            sensor_limit: number;
        };
        /** @description A gel that the flash may wear. */
        TableGel: {
            /** @description Its name with its shift. */
            label: string;
            /**
             * Format: double
             * @description Light that it takes, in stops.
             */
            loss_stops: number;
            /** @description Its name in a shoot text; "none" for none. */
            name: string;
            /** @description What turns sixteen bands into the sensor's red, green and blue: three rows. */
            weights: number[][];
        };
        /** @description A light of a picture. */
        TableLight: {
            /**
             * Format: uint
             * @description Its first plane.
             */
            first_plane: number;
            /** @description Whether it is the flash. */
            is_flash: boolean;
            /** @description "flash", or what the photographer calls it. */
            name: string;
            /**
             * Format: uint
             * @description How many planes it has: 4 for bands, 1 for the sensor's channels.
             */
            planes: number;
        };
        /** @description A kept bag or place for a shoot text. */
        TakeRequest: {
            /** @description What is put in. */
            kind: components["schemas"]["PartWord"];
            /** @description Its text. */
            part: string;
            /**
             * Format: uint
             * @description Which of its set-ups, from 0.
             * @default 0
             */
            set_up: number;
            /** @description The shoot text. */
            text: string;
        };
        /** @description A document that was taken in. */
        Taken: {
            /** @description What it is called here. */
            id: string;
            /** @description "shoots", "bags" or "places". */
            kind: string;
            /** @description What people call it. */
            name: string;
        };
        /** @description A set-up of a shoot text. */
        TextRequest: {
            /**
             * Format: uint
             * @description Which of its set-ups, from 0.
             * @default 0
             */
            set_up: number;
            /** @description The shoot text. */
            text: string;
        };
        /** @description One guess and what it does to the exposure. */
        UncertaintyPartReport: {
            /** @description The input, in words. */
            input: string;
            /** @description What is assumed of it. */
            spread: string;
            /**
             * Format: double
             * @description One standard deviation of the exposure from it.
             */
            standard_deviation_stops?: number | null;
        };
        /** @description How far the first frame may be off, and why. */
        UncertaintyReport: {
            /** @description What it is made of, largest first. */
            parts: components["schemas"]["UncertaintyPartReport"][];
            /**
             * Format: double
             * @description About nine frames in ten fall within this many stops.
             */
            within_stops?: number | null;
        };
        /** @description What was understood of the text of a shoot, as one set-up sees it. */
        Understood: {
            /** @description The place from above and from the side, an SVG; null while something is wrong. */
            drawing?: string | null;
            /** @description The parts of this set-up as plain values, exactly as written; empty if the text cannot be taken apart. */
            form: {
                [key: string]: unknown;
            };
            /** @description Where everything stands; null while something is wrong. */
            geometry?: components["schemas"]["Geometry"] | null;
            /** @description Whether this set-up can be answered. */
            ok: boolean;
            /** @description The parts that this set-up has of its own. */
            owned: string[];
            /** @description What is wrong with it, in the order of the file. */
            problems: components["schemas"]["Mistake"][];
            /**
             * Format: uint
             * @description Which of them this is about, from 0.
             */
            set_up: number;
            /** @description The set-ups in the order of the file; one, with the shoot's title, if it has no `[[setup]]`. */
            set_ups: components["schemas"]["SetUpName"][];
            /** @description What was understood, a line each. */
            summary: string[];
            /** @description The text. */
            text: string;
            /** @description What was assumed, or looks odd. */
            warnings: string[];
        };
        /** @description The usual light of a place. */
        UsualLight: {
            /** @description Colour temperature: "2850 K". */
            colour: string;
            /** @description What the place is called. */
            name: string;
            /** @description Incident reading at ISO 100: "EV 5.5". */
            reading: string;
        };
        /** @description Whether a way of lighting serves. */
        VerdictReport: "chosen" | "possible" | "poor" | "unusable";
        /** @description Every word that stands for something. */
        Vocabulary: {
            /** @description How people are built. */
            builds: string[];
            /** @description What is worn. */
            clothes: string[];
            /** @description Colours of cloth. */
            cloths: string[];
            /** @description Colours of eyes. */
            eyes: string[];
            /** @description Kinds of people. */
            figures: string[];
            /** @description Typical flashes. */
            flash_kinds: string[];
            /** @description Gels by name, with what each family's does. */
            gels: components["schemas"]["GelWord"][];
            /** @description Colours of hair. */
            hair_colours: string[];
            /** @description Ways to wear the hair. */
            hairs: string[];
            /** @description Standard illuminants. */
            illuminants: string[];
            /** @description Kinds of lamps. */
            lamps: components["schemas"]["LampWord"][];
            /** @description Looks by the level of the ambient light. */
            looks: components["schemas"]["LookWord"][];
            /** @description What an opening can be. */
            opening_kinds: string[];
            /** @description Patterns of the key light, told from the nose. */
            patterns: components["schemas"]["PatternWord"][];
            /** @description Tones of skin. */
            skins: string[];
            /** @description What walls, boards and furniture are made of. */
            surfaces: components["schemas"]["SurfaceWord"][];
            /** @description Places whose level is known when nobody has metered. */
            usual_lights: components["schemas"]["UsualLight"][];
            /** @description Weathers. */
            weathers: string[];
        };
        /** @description A wall, as it is written in a shoot file. */
        WallName: "left" | "right" | "behind camera" | "behind sitter";
        /** @description Where a zone comes out. */
        ZoneReport: {
            /**
             * Format: double
             * @description Stops from normal.
             */
            level_stops?: number | null;
            /** @description Its name. */
            name: string;
            /**
             * Format: double
             * @description Its colour temperature; null when it was not told.
             */
            temperature_k?: number | null;
            /**
             * Format: double
             * @description Where it was wished; null when nothing was said.
             */
            wish_stops?: number | null;
        };
    };
    responses: never;
    parameters: never;
    requestBodies: never;
    headers: never;
    pathItems: never;
}
export type $defs = Record<string, never>;
export interface operations {
    get_about: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["About"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_answers: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["TextRequest"];
            };
        };
        responses: {
            /** @description done */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Job"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_answers_id: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["AnswerTold"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_answers_id_card_html: {
        parameters: {
            query?: {
                with?: string | null;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/html": unknown;
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_answers_id_card_pdf: {
        parameters: {
            query?: {
                with?: string | null;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/pdf": unknown;
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_answers_id_light_changed: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["LightChanged"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["LightChangedTold"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_answers_id_map: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["MapTold"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_begin: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["StartForm"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Understood"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_edit: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["EditRequest"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Understood"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_export: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/zip": unknown;
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_give: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["GiveRequest"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PartText"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_import: {
        parameters: {
            query?: {
                name?: string | null;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/octet-stream": unknown;
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Imported"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_jobs_id: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Job"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    delete_jobs_id: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_jobs_id_events: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "text/event-stream": unknown;
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_live: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["LiveRequest"];
            };
        };
        responses: {
            /** @description done */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Job"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_live_id_aim: {
        parameters: {
            query: {
                azimuth: number;
                elevation: number;
                zoom?: number | null;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/octet-stream": unknown;
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_live_id_table: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Table"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_pair: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PairRequest"];
            };
        };
        responses: {
            /** @description done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_phone: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["Nothing"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["PhoneOpened"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    delete_phone: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_proofs: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ProofRequest"];
            };
        };
        responses: {
            /** @description done */
            202: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Job"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_proofs_id_layers: {
        parameters: {
            query?: {
                picture?: number | null;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/octet-stream": unknown;
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_proofs_id_picture_png: {
        parameters: {
            query?: {
                aperture?: number | null;
                balance?: number | null;
                gel?: number | null;
                iso?: number | null;
                power?: number | null;
                shutter?: number | null;
            };
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "image/png": unknown;
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_proofs_id_table: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Table"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_scan: {
        parameters: {
            query: {
                name: string;
                turned?: number;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/octet-stream": unknown;
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ScannedPlace"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_take: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["TakeRequest"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Understood"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_understand: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["TextRequest"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Understood"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_vocabulary: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Vocabulary"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_kind: {
        parameters: {
            query?: {
                removed?: boolean;
            };
            header?: never;
            path: {
                kind: "shoots" | "bags" | "places";
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Listed"][];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_kind: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                kind: "shoots" | "bags" | "places";
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["NewDocument"];
            };
        };
        responses: {
            /** @description done */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Document"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_kind_id: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                kind: "shoots" | "bags" | "places";
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Document"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    put_kind_id: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                kind: "shoots" | "bags" | "places";
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SaveDocument"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Document"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    delete_kind_id: {
        parameters: {
            query: {
                based_on: number;
            };
            header?: never;
            path: {
                kind: "shoots" | "bags" | "places";
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    post_kind_id_restore: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                kind: "shoots" | "bags" | "places";
                id: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["Restore"];
            };
        };
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Document"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_kind_id_versions: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                kind: "shoots" | "bags" | "places";
                id: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Listed"][];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
    get_kind_id_versions_version: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                kind: "shoots" | "bags" | "places";
                id: string;
                version: number;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description done */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Document"];
                };
            };
            /** @description refused, with the reason */
            default: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["RefusalBody"];
                };
            };
        };
    };
}
