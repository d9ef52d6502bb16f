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
        /** @description The colour of a way's light against one of the lights that are there. */
        AgainstLight: {
            /** @description The light that is there. */
            light: components["schemas"]["LightName"];
            /** @description The way's light minus that light, positive warmer. */
            mired: components["schemas"]["MiredShift"];
        };
        /**
         * @description Where the flash is and where it points.
         *
         *     Turn and tilt are those of the flash head against the lens axis. For a camera that looks along y, a head that points
         *     along (−1, 1, √2) is turned by −45 degrees and tilted by 45.
         */
        Aim: {
            /** @description The point that the middle of the beam meets. */
            aim_m: components["schemas"]["Point2"];
            /** @description Whether the head is flagged on the sitter's side, with a black card between it and the face. */
            flagged: boolean;
            /**
             * Format: double
             * @description Clock hour seen from above, metered sitter in the middle and camera at 6, at which the flash is.
             */
            flash_at_clock: number;
            /**
             * Format: double
             * @description From the flash's window straight to the metered sitter's face, in metres.
             */
            flash_from_face_m: number;
            /** @description Position of the flash's window in the world. */
            flash_m: components["schemas"]["Point2"];
            /** @description What holds the flash. */
            holder: components["schemas"]["Holder"];
            /** @description Path from flash to surface and from surface to face, in metres; the second is zero for direct. */
            legs_m: number[];
            /**
             * Format: double
             * @description Clock hour seen from above, metered sitter in the middle and camera at 6, from which the light comes.
             */
            light_from_clock: number;
            /** @description How the middle of the beam lies to the faces. */
            middle: components["schemas"]["BeamMiddle"];
            /** @description The route of the light. */
            route: components["schemas"]["Route"];
            /**
             * Format: double
             * @description Height of the target above the metered sitter's eyes, in metres; negative below them.
             */
            target_above_eyes_m: number;
            /**
             * @description How far the target lies to the camera's right, and ahead of the camera along the lens axis, both level and in metres;
             *     negative to the left and behind.
             */
            target_from_camera_m: number[];
            /**
             * Format: double
             * @description Tilt of the flash head, in degrees above level; negative below.
             */
            tilt_deg: number;
            /**
             * Format: double
             * @description Turn of the flash head, in degrees from the lens axis, both seen from above; positive to the camera's right.
             */
            turn_deg: number;
        };
        /** @description Another answer that is truly different. */
        Alternative: {
            /** @description Camera line. */
            camera: components["schemas"]["Settings"];
            /** @description Where the flash points. */
            chosen: components["schemas"]["Aim"];
            /** @description Flash line. */
            flash: components["schemas"]["FlashSetting"];
            /** @description What all the light of the finished picture does to the first sitter's face. */
            key: components["schemas"]["KeyReading"];
            /**
             * Format: double
             * @description Points against the ask; the answer's own are the sum of its verdict's score.
             */
            points: number;
            /** @description The one reason to prefer it to the answer. */
            prefer: components["schemas"]["Preference"];
            /** @description The surface, the board, the bare flash. */
            way: components["schemas"]["WayId"];
        };
        /** @description An answer as it is told. */
        AnswerTold: {
            /** @description The changes of the answer's shortfall in its order, each with the shoot text that has it. */
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
            /** @description The answer as data and in words; its map has no cells here, they are given by themselves. */
            report: components["schemas"]["Report"];
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
        /** @description What is assumed of an input: how it was found, and how far that may be off, as one standard deviation. */
        Assumed: {
            /** @constant */
            is: "measured_guide";
        } | {
            /** @constant */
            is: "claimed_guide";
        } | {
            /** @constant */
            is: "by_eye";
            /**
             * Format: double
             * @description As a share.
             */
            share: number;
        } | {
            /** @constant */
            is: "paced";
            /**
             * Format: double
             * @description As a share.
             */
            share: number;
        } | {
            /** @constant */
            is: "held_at";
            /**
             * Format: double
             * @description Either way.
             */
            metres: number;
        } | {
            /**
             * Format: double
             * @description Either way.
             */
            degrees: number;
            /** @constant */
            is: "held_leaning";
        } | {
            /** @constant */
            is: "ordinary_room";
        };
        /** @description Flash against the light that is there. */
        Balance: {
            /** @description What one step of each control does. */
            controls: components["schemas"]["ControlLevel"][];
            /**
             * Format: double
             * @description The flash's share of the light on the face, 0 to 1.
             */
            flash_share: number;
            /** @description Settings for each later time. */
            later: components["schemas"]["LaterSettings"][];
            /** @description How far from the face the flash may be; empty unless it shines straight at the face. */
            reach: components["schemas"]["Reach"][];
            /** @description The light level for which the settings are right, the filter on the lens included. */
            settings_ev: components["schemas"]["Ev"];
            /** @description From where to where it is sharp, with the usual circle of confusion. */
            sharp?: components["schemas"]["Sharp"] | null;
            /** @description Each zone at these settings. */
            zones: components["schemas"]["ZoneLevel"][];
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
        /** @description How the middle of the beam lies to the faces. */
        BeamMiddle: {
            /** @constant */
            is: "face";
        } | {
            /** @constant */
            is: "middle_of_faces";
        } | {
            /** @constant */
            is: "past";
            /**
             * Format: double
             * @description Angle at the flash between the beam's middle and the face, or the middle of the faces, in degrees, 0 to 180.
             */
            off_deg: number;
        };
        /** @description What is seen behind everyone, and how the first sitter stands off against it. */
        BehindReading: {
            /** @description The edge of the hair against what is seen beside it; positive is lighter. `None` where there is no such edge. */
            hair_stops?: components["schemas"]["Stops"] | null;
            /**
             * @description Light on it against the light on the face: the level that half of it lies above. `None` where hardly any surface is seen
             *     there, but sky or windows.
             */
            light_stops?: components["schemas"]["Stops"] | null;
            /** @description The same of the clothes on the shoulders. */
            shoulders_stops?: components["schemas"]["Stops"] | null;
            /** @description Its tone against mid-grey, with how light it is itself: the level that half of it lies above. */
            tone_stops?: components["schemas"]["Stops"] | null;
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
        /** @description Something cheap that is brought along. */
        Brought: {
            /** @constant */
            is: "filter";
            /** @description What it takes, in stops. */
            stops: components["schemas"]["Stops"];
        } | {
            /** @constant */
            is: "umbrella";
            /** @description What it costs on the axis against the bare head at zoom 35, in stops. */
            loss_stops: components["schemas"]["Stops"];
            /**
             * Format: double
             * @description Its width in metres.
             */
            width_m: number;
        } | {
            /**
             * Format: float
             * @description Its height in metres.
             */
            height_m: number;
            /** @constant */
            is: "card";
            /**
             * Format: float
             * @description Its width in metres.
             */
            width_m: number;
        };
        /** @description A surface by what it is: a face of the room, or something with a name. */
        Carrier: {
            /** @description The face. */
            face: components["schemas"]["FaceName"];
            /** @constant */
            is: "face";
        } | {
            /** @constant */
            is: "named";
            /** @description The name. */
            name: string;
        };
        /** @description A colour cast against the flash as it leaves the head, its gel included. */
        Cast: {
            /** @description Green (+) or magenta (−) against the flash. */
            duv: components["schemas"]["Duv"];
            /** @description Shift in mired, positive warmer. */
            mired: components["schemas"]["MiredShift"];
            /** @description Colour temperature of the light at the face. */
            temperature_k: components["schemas"]["Kelvin"];
        };
        /** @description Something that could hurt someone. */
        Caution: {
            /** @constant */
            caution: "dazzles";
            /**
             * Format: double
             * @description Metres to keep at least.
             */
            keep_m: number;
            /**
             * Format: double
             * @description Metres from the flash to the face.
             */
            metres: number;
        } | {
            /** @constant */
            caution: "small_children";
            /**
             * Format: double
             * @description Metres to keep, or the flash is bounced.
             */
            keep_m: number;
        } | {
            /** @constant */
            caution: "sun_ahead";
        } | {
            /** @constant */
            caution: "hot_flash";
        };
        /** @description A change to the ask, the bag or the place. */
        Change: {
            /** @constant */
            change: "raise_speed";
            /** @description Now. */
            from: components["schemas"]["Iso"];
            /** @description Then. */
            to: components["schemas"]["Iso"];
        } | {
            /** @constant */
            change: "allow_speeds";
            /** @description Now. */
            from: components["schemas"]["Iso"];
            /** @description Then. */
            to: components["schemas"]["Iso"];
        } | {
            /** @constant */
            change: "lower_speed";
            /** @description Now. */
            from: components["schemas"]["Iso"];
            /** @description Then. */
            to: components["schemas"]["Iso"];
        } | {
            /** @constant */
            change: "open_up";
            /** @description Now. */
            from: components["schemas"]["FNumber"];
            /** @description Metres that are sharp now and then; `None` where one is without end. */
            sharp_m?: number[] | null;
            /** @description Then. */
            to: components["schemas"]["FNumber"];
        } | {
            /** @constant */
            change: "stop_down";
            /** @description Now. */
            from: components["schemas"]["FNumber"];
            /** @description Metres that are sharp now and then; `None` where one is without end. */
            sharp_m?: number[] | null;
            /** @description Then. */
            to: components["schemas"]["FNumber"];
        } | {
            /** @constant */
            change: "keep_in_hand";
            /** @description Now. */
            from: components["schemas"]["Stops"];
            /** @description Seconds until the flash is ready, now and then. */
            ready_s: number[];
            /** @description Then. */
            to: components["schemas"]["Stops"];
        } | {
            /** @constant */
            change: "wait_longer";
            /**
             * Format: double
             * @description Now.
             */
            from_s: number;
            /**
             * Format: double
             * @description Then.
             */
            to_s: number;
        } | {
            /** @constant */
            change: "dim_ambient";
            /** @description By so much, positive. */
            stops: components["schemas"]["Stops"];
        } | {
            /** @constant */
            change: "allow_cast";
            /** @description Now. */
            from: components["schemas"]["MiredShift"];
            /** @description Then. */
            to: components["schemas"]["MiredShift"];
        } | {
            /** @constant */
            change: "any_skin";
        } | {
            /** @constant */
            change: "allow_angle";
            /**
             * Format: double
             * @description Now.
             */
            from_deg: number;
            /**
             * Format: double
             * @description Then.
             */
            to_deg: number;
        } | {
            /** @constant */
            change: "other_side";
            /** @description The side that comes in. */
            side: components["schemas"]["Side"];
        } | {
            /** @constant */
            change: "key_height";
            /**
             * Format: double
             * @description Now.
             */
            from_deg: number;
            /**
             * Format: double
             * @description Then.
             */
            to_deg: number;
        } | {
            /** @description What was asked. */
            asked: components["schemas"]["Softness"];
            /** @constant */
            change: "any_softness";
        } | {
            /** @constant */
            change: "settle_ratio";
            /** @description Now. */
            from: components["schemas"]["Ratio"];
            /** @description Then. */
            to: components["schemas"]["Ratio"];
        } | {
            /** @constant */
            change: "faces_differ";
            /** @description Now. */
            from: components["schemas"]["Stops"];
            /** @description Then. */
            to: components["schemas"]["Stops"];
        } | {
            /** @constant */
            change: "settle_background";
            /** @description Now. */
            from: components["schemas"]["Stops"];
            /** @description Then. */
            to: components["schemas"]["Stops"];
        } | {
            /** @description Name of the board. */
            board: string;
            /** @constant */
            change: "hold_board";
        } | {
            /** @description Whether a stand must come along, because nobody is there to hold it. */
            bring_stand: boolean;
            /** @constant */
            change: "flash_off_camera";
        } | {
            /** @constant */
            change: "bring";
            /** @description What it is. */
            thing: components["schemas"]["Brought"];
        } | {
            /** @constant */
            change: "both";
            /** @description One of them. */
            first: components["schemas"]["Change"];
            /** @description The other. */
            second: components["schemas"]["Change"];
        } | {
            /** @description Whether a stand must come along, because nobody is there to hold it. */
            bring_stand: boolean;
            /** @constant */
            change: "flash_elsewhere";
        } | {
            /**
             * Format: float
             * @description Metres further from the camera; negative nearer.
             */
            away_m: number;
            /** @description The step in the place. */
            by_m: number[];
            /** @constant */
            change: "move_sitter";
            /**
             * Format: float
             * @description Metres to the camera's right; negative to its left.
             */
            right_m: number;
        };
        /** @description A change that would make an ask possible, written into the shoot text. */
        ChangeTold: {
            /** @description The shoot text with it; null where the photographer makes it by hand. */
            text?: string | null;
        };
        /** @description What a line of the stops chart counts. */
        ChartItem: {
            /** @description Aperture. */
            f_number: components["schemas"]["FNumber"];
            /** @constant */
            is: "full_flash";
            /** @description Speed. */
            iso: components["schemas"]["Iso"];
            /**
             * Format: double
             * @description Zoom of the head.
             */
            zoom_mm: number;
        } | {
            /** @constant */
            is: "front";
            /** @description Which of them. */
            way: components["schemas"]["WayId"];
        } | {
            /** @constant */
            is: "filter";
            /** @description What it takes. */
            nd_stops: components["schemas"]["Stops"];
        } | {
            /** @constant */
            is: "gel";
            /** @description Its name. */
            name: string;
        } | {
            /** @constant */
            is: "travel";
            /**
             * Format: double
             * @description Metres from the flash to the face.
             */
            metres: number;
        } | {
            /** @constant */
            is: "place_in_beam";
        } | {
            /** @constant */
            is: "room_sends_back";
        } | {
            /** @constant */
            is: "keeps";
            /**
             * Format: double
             * @description Part of the light that goes on.
             */
            share: number;
            /** @description What carries the light. */
            way: components["schemas"]["WayId"];
        } | {
            /** @constant */
            is: "scatter";
        } | {
            /** @constant */
            is: "later_bounces";
        } | {
            /** @constant */
            is: "spill";
        } | {
            /** @constant */
            is: "power";
            /** @description The nearest that can be set. */
            stops_below_full: components["schemas"]["PowerFraction"];
        } | {
            /** @constant */
            is: "ambient";
            /** @description The light. */
            light: components["schemas"]["LightName"];
        } | {
            /** @constant */
            is: "at_the_face";
        };
        /** @description What a line of the stops chart is. */
        ChartKind: "start" | "gain" | "loss" | "result";
        /** @description A line of the stops chart. */
        ChartLine: {
            /** @description What it counts. */
            item: components["schemas"]["ChartItem"];
            /** @description Start, gain, loss or result. */
            kind: components["schemas"]["ChartKind"];
            /**
             * Format: double
             * @description Stops, not rounded for printing.
             */
            stops: number;
        };
        /** @description Two wishes of which one must give way, and which. */
        Clash: {
            /** @description Why they exclude each other. */
            because: components["schemas"]["Exclusion"];
            /** @description The wish that gives way. */
            gives_way: components["schemas"]["Yielding"];
        };
        /** @description What kind of refusal it is, for programs. */
        Code: "bad_request" | "bad_shoot" | "not_found" | "conflict" | "too_large" | "busy" | "not_paired" | "forbidden" | "storage" | "stopped" | "ours";
        /** @description Part of the picture, with its light against the balance. */
        ColourZone: {
            /** @description Positive is greener than neutral. */
            duv?: components["schemas"]["Duv"] | null;
            /** @description Positive is warmer than the balance makes neutral; `None` for a colour without a temperature. */
            mired?: components["schemas"]["MiredShift"] | null;
            /** @description Which part. */
            part: components["schemas"]["PicturePart"];
        };
        /** @description The gel on the flash, and how the colours of the picture lie against the balance. */
        Colouring: {
            /** @description The gel that the flash wears. */
            gel?: components["schemas"]["GelWorn"] | null;
            /** @description The flash and each light that is there. */
            sources: components["schemas"]["SourceColour"][];
            /**
             * @description Zones of the picture against the balance: the lit and the shadow side of the face, the background, and
             *     each light that is there by itself.
             */
            zones: components["schemas"]["ColourZone"][];
        };
        /** @description What the unbiased path tracer says about the chosen aim. */
        Confirmation: {
            /**
             * Format: double
             * @description Azimuth that the referee finds, in degrees.
             */
            azimuth_deg: number;
            /** @description Referee minus solved room at the face, in stops. */
            difference_stops: components["schemas"]["Stops"];
            /**
             * Format: double
             * @description Elevation that the referee finds, in degrees.
             */
            elevation_deg: number;
            /**
             * Format: double
             * @description Standard error of the referee's own reading, in stops.
             */
            standard_error_stops: number;
        };
        /** @description A control of camera or flash, moved by one step. */
        Control: {
            /** @constant */
            is: "shutter";
        } | {
            /** @constant */
            is: "aperture";
        } | {
            /** @constant */
            is: "iso";
        } | {
            /** @constant */
            is: "power";
        } | {
            /** @constant */
            is: "flash_distance";
        } | {
            /** @constant */
            is: "gel";
        } | {
            /** @constant */
            is: "filter";
            /** @description What it takes. */
            nd_stops: components["schemas"]["Stops"];
        };
        /** @description What one step of a control does, in stops. */
        ControlLevel: {
            /** @description To the ambient part. */
            ambient_stops: components["schemas"]["Stops"];
            /** @description The control and its step. */
            control: components["schemas"]["Control"];
            /** @description To all light on the face, with the parts added as amounts. */
            face_stops: components["schemas"]["Stops"];
            /** @description To the flash's part. */
            flash_stops: components["schemas"]["Stops"];
            /** @description To each zone. */
            zones: components["schemas"]["ZoneStops"][];
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
        /** @description One thing that may be different from the description. */
        Difference: {
            /** @description The surface. */
            carrier: components["schemas"]["Carrier"];
            /** @constant */
            is: "darker";
        } | {
            /** @constant */
            is: "sitter_nearer";
            /**
             * Format: double
             * @description By so much.
             */
            metres: number;
            /** @description What the light comes from. */
            to: components["schemas"]["WayId"];
        } | {
            /** @constant */
            is: "ceiling_lower";
            /**
             * Format: double
             * @description By so much.
             */
            metres: number;
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
        /** @description What sits on the head, by its published name. */
        DressName: "bare" | "dome" | "bounce_card" | "umbrella" | "softbox";
        /** @description Distance from the Planckian locus in CIE 1960 uv: positive is greener. */
        Duv: number | null;
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
        /** @description Settings as they are engraved on dials. */
        Engraved: {
            /** @description Aperture, such as "f/5.6". */
            aperture: string;
            /** @description Power, such as "1/8 +0.7". */
            power: string;
            /** @description Shutter, such as "1/160". */
            shutter: string;
            /**
             * Format: int32
             * @description Tint of the balance in steps of the camera's scale, 0.002 Duv each: positive towards magenta, which green light needs.
             */
            tint_steps: number;
        };
        /** @description Exposure value at ISO 100. */
        Ev: number | null;
        /** @description How evenly several sitters are lit. */
        Evenness: {
            /** @description Name of the brightest. */
            brightest: string;
            /** @description Name of the darkest. */
            darkest: string;
            /** @description Each sitter against the first, in stops. */
            each: components["schemas"]["SitterLevel"][];
            /** @description Brightest minus darkest face, flash alone. */
            spread_stops: components["schemas"]["Stops"];
        };
        /** @description Why two wishes exclude each other. */
        Exclusion: {
            /**
             * Format: double
             * @description Degrees from the nose.
             */
            azimuth_deg: number;
            /** @description To one. */
            ratio: components["schemas"]["Ratio"];
            /** @constant */
            why: "even_from_the_side";
        } | {
            /**
             * Format: double
             * @description Degrees from the nose.
             */
            azimuth_deg: number;
            /** @description To one. */
            ratio: components["schemas"]["Ratio"];
            /** @constant */
            why: "uneven_from_the_front";
        } | {
            /** @description The side that was asked for. */
            side: components["schemas"]["Side"];
            /** @constant */
            why: "side_of_the_middle";
        } | {
            /** @description The gel's name. */
            gel: string;
            /** @constant */
            why: "deep_gel_on_neutral_skin";
        } | {
            /**
             * Format: double
             * @description Metres from the flash to the face.
             */
            metres: number;
            /** @constant */
            why: "soft_from_a_head";
        };
        /** @description How the exposure at the face adds up, in stops from an exact incident reading. */
        Exposure: {
            /** @description Ambient alone, dome towards the camera; `None` in darkness. */
            ambient_alone_stops?: components["schemas"]["Stops"] | null;
            /** @description Each ambient light by name: as metered by the photographer, against the settings. */
            ambient_as_metered: components["schemas"]["LightLevel"][];
            /** @description Flash alone at the power in the flash line. */
            flash_alone_stops: components["schemas"]["Stops"];
            /**
             * Format: double
             * @description Exact power in stops below 1/1 for which the flash alone gives 0.
             */
            power_for_flash_alone_stops: number;
            /**
             * Format: double
             * @description Exact power in stops below 1/1 for which flash and ambient together give 0.
             */
            power_for_total_stops: number;
            /** @description Flash and ambient together. */
            total_stops: components["schemas"]["Stops"];
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
        /** @description F-number: exact, such as 5.657 for f/5.6. */
        FNumber: number | null;
        /** @description The faces of the room by their published names. */
        FaceName: "left" | "right" | "behind_camera" | "behind_sitter" | "ceiling" | "floor";
        /** @description What a way of lighting can lack against the ask. */
        Fault: "direction" | "side" | "height" | "hollow_eyes" | "cast" | "green_magenta" | "hardness" | "softness" | "needs_flag" | "exposure" | "power" | "evenness" | "ratio" | "background" | "ambient" | "fill" | "zone" | "colour" | "recycle" | "slow_shutter" | "high_speed" | "odd_aperture" | "filter" | "needs_hand_for_flash" | "needs_stand" | "needs_hands" | "tight_beam" | "crowds_sitter";
        /** @description A fault and its points. */
        FaultPoints: {
            /** @description The fault. */
            fault: components["schemas"]["Fault"];
            /**
             * Format: double
             * @description Its points; one is about one clear fault.
             */
            points: number;
        };
        /** @description What the flash alone does to a face, without the light that is there. */
        FlashReading: {
            /**
             * Format: double
             * @description Direction weighted by light, from the nose, in degrees; positive is the camera's right.
             */
            azimuth_deg: number;
            /**
             * Format: double
             * @description Height above the eyes, in degrees.
             */
            elevation_deg: number;
            /**
             * Format: double
             * @description Near cheek over far cheek.
             */
            ratio: number;
            /**
             * Format: double
             * @description Share of the light at the face, 0 to 1.
             */
            share: number;
        };
        /** @description Settings of the flash. */
        FlashSetting: {
            /** @description What sits on the head. */
            dress: components["schemas"]["DressName"];
            /**
             * Format: double
             * @description Exact power in stops below 1/1; negative when the flash falls short.
             */
            exact_stops_below_full: number;
            /** @description Stops between the power used and full power; negative when the flash falls short. */
            in_hand_stops: components["schemas"]["Stops"];
            /** @description Nearest settable power. */
            stops_below_full: components["schemas"]["PowerFraction"];
            /**
             * Format: double
             * @description Zoom of the head in millimetres.
             */
            zoom_mm: number;
        };
        /** @description An edge of the frame. */
        FrameEdge: "left" | "right" | "top" | "bottom";
        /** @description How much weaker the beam is at an edge of the frame than at the face. */
        FrameFall: {
            /** @description The edge, in the plane of the first face. */
            edge: components["schemas"]["FrameEdge"];
            /** @description In stops, positive. */
            under_stops: components["schemas"]["Stops"];
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
        /** @description What a gel does to a flash, in the trade's figures. */
        GelFigure: {
            /** @constant */
            is: "warmth";
            /**
             * Format: double
             * @description Light lost, in hundredths of a stop.
             */
            loss_stops: number;
            /**
             * Format: double
             * @description In whole mired, positive warmer.
             */
            mired: number;
        } | {
            /**
             * Format: double
             * @description Duv in thousandths, positive greener.
             */
            duv: number;
            /** @constant */
            is: "tint";
            /**
             * Format: double
             * @description Light lost, in hundredths of a stop.
             */
            loss_stops: number;
        } | {
            /** @constant */
            is: "deep";
        };
        /** @description What a gel makes of the flash's light. */
        GelTurn: {
            /** @description Change of Duv, positive greener. */
            duv: components["schemas"]["Duv"];
            /** @description Shift, positive warmer. */
            mired: components["schemas"]["MiredShift"];
            /** @description Colour temperature behind it. */
            temperature_k: components["schemas"]["Kelvin"];
        };
        /** @description A gel, and what it does to a flash in each family. */
        GelWord: {
            /** @description In the amber family. */
            amber?: components["schemas"]["GelFigure"] | null;
            /** @description What it is called. */
            name: string;
            /** @description In the straw family; null if that family has none. */
            straw?: components["schemas"]["GelFigure"] | null;
        };
        /** @description A gel on the flash, with what it does there. */
        GelWorn: {
            /** @description Light lost, in stops, positive. */
            loss_stops: components["schemas"]["Stops"];
            /** @description The gel, or the stack. */
            name: string;
            /** @description Change of its Duv, positive greener. */
            shift_duv?: components["schemas"]["Duv"] | null;
            /** @description Shift of the flash's light; `None` for a colour too deep to have a temperature, as below. */
            shift_mired?: components["schemas"]["MiredShift"] | null;
            /** @description Colour temperature behind the gel. */
            temperature_k?: components["schemas"]["Kelvin"] | null;
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
        /** @description Whether greenish lamps matter at their share of the light, and what cures it. */
        Greenness: {
            /** @constant */
            is: "below_seen";
        } | {
            /** @constant */
            is: "hardly_seen";
        } | {
            /** @constant */
            is: "gel_matches";
        } | {
            /** @constant */
            is: "shows";
            /** @description Duv of the lamps against the flash. */
            match_duv: components["schemas"]["Duv"];
        };
        /** @description An input that is not known exactly. */
        Guess: {
            /** @constant */
            is: "flash_strength";
        } | {
            /** @constant */
            is: "paint";
            /** @description The surface. */
            of: components["schemas"]["Carrier"];
        } | {
            /** @constant */
            is: "distance_to_face";
        } | {
            /** @description Name of the board. */
            board: string;
            /** @constant */
            is: "board_to_face";
        } | {
            /** @description Name of the board. */
            board: string;
            /** @constant */
            is: "board_lean";
        } | {
            /** @constant */
            is: "flash_to_board";
        } | {
            /** @constant */
            is: "room_width";
        } | {
            /** @constant */
            is: "room_length";
        } | {
            /** @constant */
            is: "ceiling_height";
        } | {
            /** @constant */
            is: "not_described";
        };
        /** @description What holds the flash. */
        Holder: "camera" | "stand" | "helper" | "placed";
        /** @description What was taken in. */
        Imported: {
            /** @description Files that were not taken, with the reason. */
            refused: components["schemas"]["NotTaken"][];
            /** @description Documents that are kept now. */
            taken: components["schemas"]["Taken"][];
        };
        /** @description Speed on the ISO scale. */
        Iso: number | null;
        /** @description A piece of work as it is told, in one language. */
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
            kind: components["schemas"]["WorkKind"];
            /** @description The newest picture, of a proof. */
            picture?: components["schemas"]["PictureThere"] | null;
            /** @description What is being done, in words. */
            stage?: string | null;
            /** @description How far it is. */
            state: components["schemas"]["State"];
        };
        /**
         * @description One wish, and what came of it. The sum of the points of all wishes, and of what it takes to carry a way out, is what
         *     the search makes least.
         */
        Judgement: {
            /** @description What was asked. */
            asked: components["schemas"]["Wish"];
            /**
             * Format: double
             * @description What was read of the finished picture, in the unit of the kind.
             */
            found: number;
            /** @description What it is about; this says the unit of `found`, `off` and `tolerance`. */
            kind: components["schemas"]["WishKind"];
            /** @description Whether nothing but keeping it will do. */
            must: boolean;
            /**
             * Format: double
             * @description How far that is from what was asked, 0 or more; 0 where at least, or at most, so much was asked and is there.
             */
            off: number;
            /**
             * Format: double
             * @description What it adds to the sum that the search makes least.
             */
            points: number;
            /** @description How near it comes. */
            state: components["schemas"]["WishState"];
            /**
             * Format: double
             * @description How far it may be off and still be kept.
             */
            tolerance: number;
        };
        /** @description Kelvin. */
        Kelvin: number | null;
        /**
         * @description What the light of the finished picture does to a face: the flash at its power and all the light that is there, through
         *     the same shutter.
         */
        KeyReading: {
            /**
             * Format: double
             * @description Direction weighted by light, from the nose, in degrees; positive is the camera's right.
             */
            azimuth_deg: number;
            /** @description Cast of all the flash's light at the face, later bounces included. */
            cast: components["schemas"]["Cast"];
            /**
             * Format: double
             * @description Height above the eyes, in degrees.
             */
            elevation_deg: number;
            /** @description Far cheek against the dome reading, in stops. */
            far_cheek_stops: components["schemas"]["Stops"];
            /**
             * @description Cast of one bounce off the surface that carries the light, by its own colour alone; no cast for
             *     light that comes straight from the head.
             */
            first_bounce_cast: components["schemas"]["Cast"];
            /** @description What the flash alone does. */
            flash: components["schemas"]["FlashReading"];
            /**
             * Format: double
             * @description Aperture that full power gives at ISO 100, dome towards the camera.
             */
            full_power_aperture: number;
            /** @description Every landmark of the first sitter that the camera sees against the dome reading, in stops. */
            landmarks: components["schemas"]["LandmarkLevel"][];
            /** @description The eye socket on the lit side against the cheek below it, in stops. */
            lit_socket_stops: components["schemas"]["Stops"];
            /** @description Near cheek against the dome reading, in stops. */
            near_cheek_stops: components["schemas"]["Stops"];
            /** @description The pattern that this light makes on the face. */
            pattern: components["schemas"]["PatternRead"];
            /**
             * Format: double
             * @description Near cheek over far cheek, of all light: (key + fill) : fill.
             */
            ratio: number;
            /** @description The skin that the camera sees; `None` where hardly any is seen. */
            skin?: components["schemas"]["SkinReading"] | null;
            /** @description The darker eye socket against the cheek below it, in stops. */
            sockets_stops: components["schemas"]["Stops"];
            /**
             * Format: double
             * @description Width of the lit patch over its distance to the face.
             */
            softness: number;
            /** @description Direct spill of the head on the face against the bounce, in stops; `None` when there is none. */
            spill_stops?: components["schemas"]["Stops"] | null;
        };
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
        /** @description The level at a landmark of the face. */
        LandmarkLevel: {
            /** @description The landmark. */
            name: string;
            /** @description Against the dome reading. */
            stops: components["schemas"]["Stops"];
        };
        /** @description A language that sheets speak. */
        Language: "en" | "de";
        /** @description Settings for a later time, changed as little as possible. */
        LaterSettings: {
            /** @description The change of everything but the flash. */
            change_stops: components["schemas"]["Stops"];
            /** @description With a shutter that can be held, when the first cannot. */
            instead?: components["schemas"]["LaterWay"] | null;
            /** @description When, in the photographer's words. */
            name: string;
            /** @description The fewest changes. */
            then: components["schemas"]["LaterWay"];
        };
        /** @description One way to meet another light. */
        LaterWay: {
            /** @description Ambient on the face then; `None` in darkness. */
            ambient_stops?: components["schemas"]["Stops"] | null;
            /** @description Camera line. */
            camera: components["schemas"]["Settings"];
            /** @description Flash on the face then. */
            flash_stops: components["schemas"]["Stops"];
            /** @description Power of the flash. */
            stops_below_full: components["schemas"]["PowerFraction"];
            /** @description Each zone then. */
            zones: components["schemas"]["ZoneStops"][];
        };
        /** @description Something whose level was wished. */
        LevelTarget: {
            /** @constant */
            is: "zone";
            /** @description Its name. */
            name: string;
        } | {
            /** @constant */
            is: "ambient";
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
        /** @description The level of one of the lights that are there. */
        LightLevel: {
            /** @description The light. */
            light: components["schemas"]["LightName"];
            /** @description Against the settings, as it was metered or computed. */
            stops: components["schemas"]["Stops"];
        };
        /** @description A light that is there, by its name. */
        LightName: {
            /** @constant */
            is: "sky";
        } | {
            /** @constant */
            is: "sun";
        } | {
            /** @constant */
            is: "moon";
        } | {
            /** @constant */
            is: "given";
            /** @description The name. */
            name: string;
        };
        /** @description A light thing in the picture. Where there is one sitter alone, clothes name nobody. */
        LightThing: {
            /** @constant */
            is: "top";
            /** @description Whose. */
            sitter?: string | null;
        } | {
            /** @constant */
            is: "trousers";
            /** @description Whose. */
            sitter?: string | null;
        } | {
            /** @constant */
            is: "cap";
            /** @description Whose. */
            sitter?: string | null;
        } | {
            /** @constant */
            is: "surface";
            /** @description Which. */
            of: components["schemas"]["Carrier"];
        };
        /** @description The answer in three lines, and how sure they are. */
        Lines: {
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
        MapCell: {
            /**
             * Format: double
             * @description Angle of all the flash's light from the nose, in degrees; positive is the camera's right.
             */
            azimuth_deg: number;
            /**
             * Format: double
             * @description Height of all the flash's light above the eyes, in degrees.
             */
            elevation_deg: number;
            /** @description The face. */
            face: components["schemas"]["FaceName"];
            /** @description Lower corner along the face's two edges, in metres ([`scene::BoxRoom::face_frame`]). */
            from_m: number[];
            /**
             * Format: double
             * @description Points against the ask: 0 is what was asked for, above about 2.5 the look is spoilt.
             */
            points: number;
            /** @description Extent along the two edges, in metres. */
            size_m: number[];
            /** @description Its middle in the world: the point aimed at. */
            target_m: components["schemas"]["Point2"];
            /** @description Whether it serves. */
            verdict: components["schemas"]["Verdict"];
            /** @description Why, or why not. */
            why: components["schemas"]["Why"];
            /**
             * Format: double
             * @description Zoom of the head that does best there, in millimetres.
             */
            zoom_mm: number;
        };
        /** @description The room unrolled, with how good it is to aim at every part of it. */
        MapTold: {
            /** @description Every piece by itself. */
            cells: components["schemas"]["MapCell"][];
            /** @description As a drawing, SVG. */
            svg: string;
            /** @description Why each piece serves, or why not, in the order of the pieces. */
            why: string[];
        };
        /** @description Metres. */
        Metres: number | null;
        /** @description A difference of mired: positive is warmer. */
        MiredShift: number | null;
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
        /** @description Something to do or to know. */
        Note: {
            /** @description Which, why, and which gives way. */
            clash: components["schemas"]["Clash"];
            /** @constant */
            note: "excluded";
        } | {
            /** @description The strongest of them. */
            light: components["schemas"]["LightName"];
            /** @description The side that was asked for the key, where they come from the other one. */
            not_from?: components["schemas"]["Side"] | null;
            /** @constant */
            note: "light_is_key";
            /**
             * Format: double
             * @description Part of the light on the face that all of them make, 0 to 1.
             */
            share: number;
            /** @description How far the flash stays under them, in stops, positive. */
            under: components["schemas"]["Stops"];
        } | {
            /** @constant */
            note: "falls_short";
            /** @description Stops short, with the light that is there. */
            stops: components["schemas"]["Stops"];
        } | {
            /** @constant */
            note: "least_power_too_much";
            /** @description Stops too much, with the light that is there. */
            stops: components["schemas"]["Stops"];
        } | {
            /** @constant */
            note: "there_too_much";
            /** @description Stops too much by itself. */
            stops: components["schemas"]["Stops"];
        } | {
            /** @description Stops fewer than asked. */
            fewer: components["schemas"]["Stops"];
            /** @description Stops left. */
            left: components["schemas"]["Stops"];
            /** @constant */
            note: "little_in_hand";
        } | {
            /** @constant */
            note: "black_shadow";
            /**
             * Format: double
             * @description The lit cheek over the other.
             */
            ratio: number;
        } | {
            /**
             * Format: double
             * @description Where the flash comes from, from the nose, in degrees; positive is the camera's right.
             */
            flash_deg: number;
            /** @constant */
            note: "two_lights";
            /**
             * Format: double
             * @description Where the light that is there comes from.
             */
            there_deg: number;
        } | {
            /** @description The edges where it is clearly weaker than at the face. */
            falls: components["schemas"]["FrameFall"][];
            /** @description Whether the head can be zoomed wider. */
            may_zoom: boolean;
            /** @constant */
            note: "beam_falls_off";
        } | {
            /**
             * Format: double
             * @description From the face to where it falls, in metres.
             */
            behind_m: number;
            /** @description How much darker than what is around it, in stops, positive. */
            deep: components["schemas"]["Stops"];
            /** @constant */
            note: "cast_shadow";
            /** @description The side of the head that it shows on; `None` above or around it. */
            side?: components["schemas"]["Side"] | null;
        } | {
            /** @description From there to where the sensor saturates, in stops; negative when it is past that. */
            left: components["schemas"]["Stops"];
            /** @constant */
            note: "burns_first";
            /** @description Its brightest part above mid-grey, in stops. */
            over_grey: components["schemas"]["Stops"];
            /** @description What it is. */
            thing: components["schemas"]["LightThing"];
        } | {
            /** @description Hair against what is behind it, in stops; positive is lighter. */
            hair: components["schemas"]["Stops"];
            /** @constant */
            note: "hair_merges";
        } | {
            /** @description Where that puts the light that is there; `None` in darkness. */
            ambient_stops?: components["schemas"]["Stops"] | null;
            /** @description The speed that leaves a stop more in hand. */
            iso: components["schemas"]["Iso"];
            /** @constant */
            note: "near_full_power";
            /**
             * Format: double
             * @description Seconds after each frame.
             */
            wait_s: number;
        } | {
            /** @constant */
            note: "beyond_sync";
            /** @description The shutter. */
            shutter_s: components["schemas"]["ShutterTime"];
            /** @description The sync speed. */
            sync_s: components["schemas"]["ShutterTime"];
        } | {
            /**
             * Format: double
             * @description Degrees between head and face.
             */
            away_deg: number;
            /** @constant */
            note: "flag_head";
        } | {
            /** @constant */
            note: "block_spill";
            /** @description Stops under the bounce, positive. */
            under: components["schemas"]["Stops"];
        } | {
            /**
             * Format: double
             * @description Degrees between head and face.
             */
            away_deg: number;
            /** @constant */
            note: "spill_stays_under";
            /** @description Stops under the bounce, positive. */
            under: components["schemas"]["Stops"];
        } | {
            /**
             * Format: double
             * @description Degrees between head and face.
             */
            away_deg: number;
            /** @constant */
            note: "spill_misses_face";
        } | {
            /** @description From zoom 50 to 105. */
            gain: components["schemas"]["Stops"];
            /** @constant */
            note: "zoom_helps_panel";
        } | {
            /** @description From zoom 50 to 105. */
            gain: components["schemas"]["Stops"];
            /** @constant */
            note: "zoom_hardly_matters";
        } | {
            /** @description Between the two where they arrive. */
            apart: components["schemas"]["MiredShift"];
            /** @description The light. */
            light: components["schemas"]["LightName"];
            /** @constant */
            note: "shared_shares";
            /** @description Between the sides of the face. */
            sides: components["schemas"]["MiredShift"];
        } | {
            /** @description Between the two where they arrive. */
            apart: components["schemas"]["MiredShift"];
            /** @description The light. */
            light: components["schemas"]["LightName"];
            /** @constant */
            note: "balance_compromise";
        } | {
            /** @description Between the two where they arrive. */
            apart: components["schemas"]["MiredShift"];
            /** @description The light. */
            light: components["schemas"]["LightName"];
            /** @constant */
            note: "balance_serves";
        } | {
            /** @description Its name. */
            gel: string;
            /** @description How far the flash lies from the light that is there, where both arrive. */
            left?: components["schemas"]["MiredShift"] | null;
            /** @description What it costs. */
            loss: components["schemas"]["Stops"];
            /** @constant */
            note: "gel_worn";
            /** @description Shift and Duv of the flash's light, and its temperature; `None` for a deep colour. */
            turns?: components["schemas"]["GelTurn"] | null;
        } | {
            /** @description Change of its Duv. */
            duv: components["schemas"]["Duv"];
            /** @description Its name. */
            gel: string;
            /** @description What it costs. */
            loss: components["schemas"]["Stops"];
            /** @constant */
            note: "gel_to_buy";
            /** @description Shift of the flash's light. */
            shift: components["schemas"]["MiredShift"];
            /** @description The gel of the bag that it betters; `None` where no gel serves. */
            than?: string | null;
        } | {
            /** @description So far. */
            apart: components["schemas"]["MiredShift"];
            /** @description What helps. */
            cure: components["schemas"]["SidesCure"];
            /** @constant */
            note: "sides_apart";
            /** @description Whether one balance serves. */
            verdict: components["schemas"]["SidesVerdict"];
        } | {
            /** @description How much greener they make it. */
            greener: components["schemas"]["Duv"];
            /** @description The lamps. */
            lamps: components["schemas"]["LightName"][];
            /** @description Whether that matters. */
            matters: components["schemas"]["Greenness"];
            /** @constant */
            note: "green_lamps";
            /**
             * Format: double
             * @description Part of the light on the face.
             */
            share: number;
            /** @description Stops under an exact exposure, positive. */
            under: components["schemas"]["Stops"];
            /** @description How much warmer they make it. */
            warmer: components["schemas"]["MiredShift"];
        } | {
            /** @description The balance for it, from and to. */
            balance_k: components["schemas"]["Kelvin"][];
            /** @description Its cast. */
            cast: components["schemas"]["Cast"];
            /** @description The light that is there and matters, with how far apart it and this bounce would be. */
            light?: components["schemas"]["TemptedLight"] | null;
            /** @constant */
            note: "tempting_wall";
            /** @description The surface. */
            way: components["schemas"]["WayId"];
        } | {
            /** @constant */
            note: "deep_set_eyes";
        } | {
            /** @constant */
            note: "daylight_off";
            /** @description What such skies spread by. */
            spread: components["schemas"]["Stops"];
            /** @description Metered against computed, positive brighter. */
            stops: components["schemas"]["Stops"];
        } | {
            /** @constant */
            note: "shutter_leaves_flash";
        } | {
            /** @description The filter. */
            nd: components["schemas"]["Stops"];
            /** @constant */
            note: "filter_takes_both";
        } | {
            /** @constant */
            note: "no_high_speed_sync";
        } | {
            /** @constant */
            note: "open_shade";
        } | {
            /** @description The depth. */
            depth_m: components["schemas"]["Metres"];
            /** @constant */
            note: "depth_cannot_be_had";
        } | {
            /** @description Whether that is the fastest with a clean flash frame. */
            fastest: boolean;
            /** @constant */
            note: "ambient_stays";
            /** @description The shutter. */
            shutter_s: components["schemas"]["ShutterTime"];
            /** @description Stops under, positive. */
            under: components["schemas"]["Stops"];
        } | {
            /** @constant */
            note: "ambient_off";
            /** @description Positive is brighter than asked. */
            off: components["schemas"]["Stops"];
        } | {
            /** @constant */
            note: "slow_for_a_person";
            /** @description The shutter. */
            shutter_s: components["schemas"]["ShutterTime"];
        } | {
            /** @description Whether that is the fastest with a clean flash frame. */
            fastest: boolean;
            /** @constant */
            note: "too_bright";
            /** @description By so much. */
            off: components["schemas"]["Stops"];
            /** @description The shutter. */
            shutter_s: components["schemas"]["ShutterTime"];
            /** @description What comes out. */
            target: components["schemas"]["LevelTarget"];
        } | {
            /** @constant */
            note: "too_dark";
            /** @description By so much, positive. */
            off: components["schemas"]["Stops"];
            /** @description What comes out. */
            target: components["schemas"]["LevelTarget"];
        };
        /** @description A request that says nothing. */
        Nothing: Record<string, never>;
        /** @description A change after which nothing is lacking, with where it leads. */
        Offer: {
            /** @description The change. */
            change: components["schemas"]["Change"];
            /**
             * Format: double
             * @description How much it asks of the photographer and the picture, in points like those of the faults (ours).
             */
            effort: number;
            /** @description The answer that it leads to. */
            then: components["schemas"]["Then"];
        };
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
        /**
         * @description A lighting pattern by the direction of its light from the nose (common practice; where one ends and the next begins
         *     is ours, halfway between what each is described as).
         */
        Pattern: "flat" | "butterfly" | "loop" | "rembrandt" | "split" | "rim" | "under" | "top";
        /** @description A pattern, and how near the light is to making another one. */
        PatternRead: {
            /** @description What it is. */
            is: components["schemas"]["Pattern"];
            /** @description What it would be next. */
            next: components["schemas"]["Pattern"];
            /**
             * Format: double
             * @description How many degrees further round or up that begins.
             */
            next_deg: number;
        };
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
        /** @description A part of the picture that has a colour of its own. */
        PicturePart: {
            /** @constant */
            is: "lit_side";
        } | {
            /** @constant */
            is: "shadow_side";
        } | {
            /** @constant */
            is: "background";
        } | {
            /** @constant */
            is: "light_alone";
            /** @description The light. */
            light: components["schemas"]["LightName"];
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
        Point2: {
            /**
             * Format: double
             * @description Metres from the wall behind the camera.
             */
            from_behind: number;
            /**
             * Format: double
             * @description Metres from the left wall, as seen from the camera.
             */
            from_left: number;
            /**
             * Format: double
             * @description Metres above the floor.
             */
            height: number;
        };
        /** @description Power of a flash in stops below full: positive is less light. */
        PowerFraction: number | null;
        /** @description The one reason to prefer another answer. */
        Preference: {
            /** @constant */
            reason: "more_in_hand";
            /** @description So many stops more. */
            stops: components["schemas"]["Stops"];
        } | {
            /** @constant */
            reason: "softer";
            /**
             * Format: double
             * @description The light is so many times as wide.
             */
            times: number;
        } | {
            /** @description So much less cast. */
            less: components["schemas"]["MiredShift"];
            /** @constant */
            reason: "cleaner_skin";
        } | {
            /**
             * Format: double
             * @description By so many degrees.
             */
            degrees: number;
            /** @constant */
            reason: "nearer_angle";
        } | {
            /**
             * Format: double
             * @description The answer's.
             */
            instead_of: number;
            /**
             * Format: double
             * @description Near cheek over far cheek.
             */
            ratio: number;
            /** @constant */
            reason: "gentler";
        } | {
            /**
             * Format: double
             * @description The answer's.
             */
            instead_of: number;
            /**
             * Format: double
             * @description Near cheek over far cheek.
             */
            ratio: number;
            /** @constant */
            reason: "more_drama";
        } | {
            /** @constant */
            reason: "no_hands";
        } | {
            /** @constant */
            reason: "no_flag";
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
        /** @description The larger part of a ratio to one. */
        Ratio: number | null;
        /**
         * @description The largest distance from flash to face at which the flash alone exposes the face, by the inverse square of
         *     the distance and with nothing sent back by the surroundings.
         */
        Reach: {
            /**
             * Format: double
             * @description Distance in metres.
             */
            distance_m: number;
            /** @description Power. */
            stops_below_full: components["schemas"]["PowerFraction"];
            /**
             * Format: double
             * @description Zoom of the head in millimetres.
             */
            zoom_mm: number;
        };
        /** @description One reason against a way of lighting. */
        Reason: {
            /** @description The cast. */
            cast: components["schemas"]["Cast"];
            /** @constant */
            reason: "unusable_cast";
        } | {
            /** @description The cast. */
            cast: components["schemas"]["Cast"];
            /** @constant */
            reason: "cast";
        } | {
            /**
             * Format: double
             * @description Degrees beside the nose, without a side.
             */
            azimuth_deg: number;
            /**
             * Format: double
             * @description Near cheek over far cheek.
             */
            ratio: number;
            /** @constant */
            reason: "flat";
        } | {
            /**
             * Format: double
             * @description Degrees from the nose, without a side.
             */
            azimuth_deg: number;
            /** @constant */
            reason: "from_behind";
        } | {
            /**
             * Format: double
             * @description Degrees from the nose, without a side.
             */
            azimuth_deg: number;
            /** @constant */
            reason: "beside";
        } | {
            /**
             * Format: double
             * @description Degrees from the nose, positive to the camera's right.
             */
            azimuth_deg: number;
            /** @constant */
            reason: "other_side";
        } | {
            /**
             * Format: double
             * @description Degrees below the eyes, positive.
             */
            below_deg: number;
            /** @constant */
            reason: "from_below";
        } | {
            /**
             * Format: double
             * @description Degrees above the eyes.
             */
            elevation_deg: number;
            /** @constant */
            reason: "steep";
        } | {
            /**
             * Format: double
             * @description Degrees above the eyes.
             */
            elevation_deg: number;
            /** @constant */
            reason: "above";
        } | {
            /** @constant */
            reason: "hollow_eyes";
            /** @description The darker socket against the cheek below it. */
            sockets: components["schemas"]["Stops"];
        } | {
            /** @constant */
            reason: "small_and_hard";
        } | {
            /** @constant */
            reason: "too_soft";
        } | {
            /** @constant */
            reason: "short";
            /** @description Stops short of what is asked in hand. */
            stops: components["schemas"]["Stops"];
        } | {
            /** @constant */
            reason: "uneven";
        } | {
            /** @constant */
            reason: "as_good_but_held";
        } | {
            /** @constant */
            reason: "nearly_as_good";
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
        /** @description The answer to one set-up, for other programs. */
        Report: {
            /** @description Other answers that are truly different, at most two, the better first. */
            alternatives: components["schemas"]["Alternative"][];
            /** @description Flash against what is there: zones, reach, what each control does, and the settings for later. */
            balance: components["schemas"]["Balance"];
            /** @description What is seen behind everyone, in the finished picture. */
            behind: components["schemas"]["BehindReading"];
            /** @description Camera line. */
            camera: components["schemas"]["Settings"];
            /** @description Cautions where something could hurt. */
            cautions: components["schemas"]["Caution"][];
            /** @description Where the stops go: gains and losses that add up exactly to `exposure.total`. */
            chart: components["schemas"]["ChartLine"][];
            /** @description Where the flash points and what carries the light. */
            chosen: components["schemas"]["Aim"];
            /** @description The gel on the flash, and how the colours of the picture lie against the balance. */
            colour: components["schemas"]["Colouring"];
            /** @description How evenly several sitters are lit. */
            evenness?: components["schemas"]["Evenness"] | null;
            /** @description How the exposure at the face adds up. */
            exposure: components["schemas"]["Exposure"];
            /** @description Flash line. */
            flash: components["schemas"]["FlashSetting"];
            /** @description What all the light of the finished picture does to the first sitter's face. */
            key: components["schemas"]["KeyReading"];
            /** @description Every aim at the room's surfaces from the flash's place. */
            map: components["schemas"]["RoomMap"];
            /** @description Where the first sitter must stand instead, when that was allowed and serves better. */
            moved_to_m?: components["schemas"]["Point2"] | null;
            /** @description What the photographer should do or know, the important things first. */
            notes: components["schemas"]["Note"][];
            /**
             * Format: double
             * @description What the wishes and what it takes to carry the answer out add up to: the sum that the search has made least.
             */
            points: number;
            /** @description What the referee found for the chosen aim. */
            referee: components["schemas"]["Confirmation"];
            /** @description How the answer moves when the place is a little different from its description. */
            sensitivities: components["schemas"]["Sensitivity"][];
            /** @description When a wish is missed, or a must is not kept: by how much, and the smallest changes that would help. */
            shortfall?: components["schemas"]["Shortfall"] | null;
            /** @description Every surface, board and the bare flash, with what it would do and why it was not chosen. */
            surfaces: components["schemas"]["SurfaceVerdict"][];
            /** @description What the photographer calls the set-up. */
            title: string;
            /** @description The answer in words. */
            told: components["schemas"]["Told"];
            /** @description How far the answer may be off. */
            uncertainty: components["schemas"]["Uncertainty"];
            /**
             * Format: uint32
             * @description Version of this shape.
             */
            version: number;
            /** @description Every wish, with what the answer makes of it. */
            wishes: components["schemas"]["Judgement"][];
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
        /** @description Every aim at the room's surfaces from one place of the flash. */
        RoomMap: {
            /** @description The cells, face by face; what cannot be aimed at from there is left out. */
            cells: components["schemas"]["MapCell"][];
            /** @description The place of the flash. */
            flash_m: components["schemas"]["Point2"];
            /** @description Width, length and height of the room in metres. */
            room_m: number[];
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
        Route: {
            /** @constant */
            by: "bounce";
            /** @description The face that carries much of the rest, for an aim into a corner. */
            corner_with?: components["schemas"]["FaceName"] | null;
            /** @description The face that carries most of the light. */
            face: components["schemas"]["FaceName"];
        } | {
            /** @constant */
            by: "standing";
            /** @description Its name. */
            name: string;
        } | {
            /**
             * Format: uint
             * @description Position of the board in the bag.
             */
            board: number;
            /** @constant */
            by: "held_board";
            /** @description Its centre. */
            centre_m: components["schemas"]["Point2"];
            /** @description Its name. */
            name: string;
            /** @description Unit normal of its front. */
            normal: number[];
            /**
             * Format: double
             * @description Distance from its centre to the face in metres.
             */
            to_face_m: number;
        } | {
            /** @constant */
            by: "open";
        } | {
            /** @constant */
            by: "direct";
        };
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
        /** @description From where the page is seen. */
        Seen: "here" | "phone";
        /** @description How the answer moves when one thing is different. */
        Sensitivity: {
            /**
             * Format: double
             * @description Change of the key's angle from the nose, in degrees, positive to the camera's right.
             */
            azimuth_deg: number;
            /** @description Change of the cast. */
            cast_mired: components["schemas"]["MiredShift"];
            /**
             * Format: double
             * @description Change of the key's height, in degrees.
             */
            elevation_deg: number;
            /** @description Change of the exposure at the face with everything else left as it is. */
            exposure_stops: components["schemas"]["Stops"];
            /** @description The difference. */
            what: components["schemas"]["Difference"];
        };
        /** @description The name of a set-up. */
        SetUpName: {
            /** @description What it is called. */
            name: string;
        };
        /** @description Settings of the camera. */
        Settings: {
            /** @description Aperture. */
            f_number: components["schemas"]["FNumber"];
            /** @description Speed. */
            iso: components["schemas"]["Iso"];
            /** @description Neutral density filter on the lens, in stops; 0 is none. */
            nd_stops: components["schemas"]["Stops"];
            /** @description Shutter, within sync. */
            shutter_s: components["schemas"]["ShutterTime"];
            /** @description Green (+) or magenta (−) of the light that the balance makes neutral. */
            tint_duv: components["schemas"]["Duv"];
            /** @description White balance. */
            white_balance_k: components["schemas"]["Kelvin"];
        };
        /** @description From where to where it is sharp. */
        Sharp: {
            /**
             * Format: double
             * @description Metres to the farthest; null when everything beyond is sharp.
             */
            far_m?: number | null;
            /**
             * Format: double
             * @description Metres from the lens to the nearest sharp distance.
             */
            near_m: number;
        };
        /** @description What an answer lacks against the ask, and what would help. */
        Shortfall: {
            /** @description The smallest changes of each kind after which nothing is lacking, each solved again; the least first. */
            changes: components["schemas"]["Offer"][];
            /** @description Whether a must is not kept, so that the picture cannot be had as it was asked. */
            impossible: boolean;
            /** @description The wishes that the answer lacks, those that must be kept before the others, the worst first. */
            missed: components["schemas"]["Judgement"][];
            /** @description The furthest change of each kind that was tried and does not help. */
            tried: components["schemas"]["Change"][];
        };
        /** @description Seconds. */
        ShutterTime: number | null;
        /** @description A side, seen from the camera. */
        Side: "left" | "right";
        /** @description What brings two sides of a face together that are too far apart. */
        SidesCure: "cover_walls" | "fill_shadow" | "match_lights";
        /** @description Whether one balance serves two sides of a face that are too far apart. */
        SidesVerdict: "compromise" | "no_balance";
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
        /** @description A sitter's level. */
        SitterLevel: {
            /** @description Name of the sitter. */
            name: string;
            /** @description Against the first sitter. */
            stops: components["schemas"]["Stops"];
        };
        /** @description The skin of the first face that the camera sees, read point by point, past whatever stands before it. */
        SkinReading: {
            /**
             * Format: double
             * @description Where the light comes from by its shading, from the nose, in degrees; positive is the camera's right.
             */
            azimuth_deg: number;
            /** @description The darkest part: what a tenth of it lies below, against the dome reading. */
            darkest_stops: components["schemas"]["Stops"];
            /**
             * Format: double
             * @description The same above the eyes, in degrees.
             */
            elevation_deg: number;
            /** @description The lit part: what the brightest quarter of it lies above, against the dome reading. */
            lit_stops: components["schemas"]["Stops"];
            /**
             * Format: uint
             * @description Points that were read.
             */
            points: number;
        };
        /** @description How soft the key should be. */
        Softness: "soft" | "hard" | "any";
        /** @description One of the lights that meet at the face. */
        SourceColour: {
            /** @description Duv as it arrives. */
            duv?: components["schemas"]["Duv"] | null;
            /**
             * Format: double
             * @description Part of the light at the face, dome towards the camera.
             */
            share: number;
            /** @description The flash, or one of the lights that are there. */
            source: components["schemas"]["SourceName"];
            /** @description Colour temperature as it arrives at the face. */
            temperature_k?: components["schemas"]["Kelvin"] | null;
        };
        /** @description One of the lights that meet at the face, by its name. */
        SourceName: {
            /** @constant */
            is: "flash";
        } | {
            /** @constant */
            is: "light";
            /** @description The light. */
            light: components["schemas"]["LightName"];
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
        /** @description Stops: positive is more light. */
        Stops: number | null;
        /** @description One surface, board or the bare flash: its best aim and what is wrong with it. */
        SurfaceVerdict: {
            /** @description Difference in mired between this light and each ambient light. */
            against_ambient: components["schemas"]["AgainstLight"][];
            /** @description The point aimed at. */
            aim_m: components["schemas"]["Point2"];
            /** @description What it would do to the face; `None` where no light could get there. */
            key?: components["schemas"]["KeyReading"] | null;
            /**
             * Format: double
             * @description Exact power in stops below 1/1 for flash alone at 0 with the answer's camera settings; negative
             *     when it falls short.
             */
            power_for_flash_alone_stops?: number | null;
            /** @description The route. */
            route: components["schemas"]["Route"];
            /** @description What it lacks and what it takes, in points; the sum ranks the ways. */
            score: components["schemas"]["FaultPoints"][];
            /** @description Whether it serves. */
            verdict: components["schemas"]["Verdict"];
            /** @description What it is. */
            way: components["schemas"]["WayId"];
            /** @description Why, or why not. */
            why: components["schemas"]["Why"];
            /**
             * Format: double
             * @description Stops gained on this route by zooming from 50 to 105 mm.
             */
            zoom_gain_stops?: number | null;
            /**
             * Format: double
             * @description Zoom of the head.
             */
            zoom_mm: number;
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
            /** @description Its name with its shift in mired. */
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
            /** @description "flash", "sky", "sun", "moon", or what the photographer calls it. */
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
        /** @description A light that is there, beside a tempting bounce. */
        TemptedLight: {
            /** @description The light. */
            light: components["schemas"]["LightName"];
            /** @description Between it and the bounce; `None` where one has no temperature. */
            mired?: components["schemas"]["MiredShift"] | null;
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
        /** @description The answer that a change leads to, in short. */
        Then: {
            /** @description Camera line. */
            camera: components["schemas"]["Settings"];
            /** @description What is left in hand. */
            in_hand_stops: components["schemas"]["Stops"];
            /** @description Power of the flash. */
            stops_below_full: components["schemas"]["PowerFraction"];
            /** @description The way. */
            way: components["schemas"]["WayId"];
            /**
             * Format: double
             * @description Zoom of the head in millimetres.
             */
            zoom_mm: number;
        };
        /** @description An answer in words. */
        Told: {
            /** @description Other answers that are truly different. */
            alternatives: components["schemas"]["ToldAlternative"][];
            /** @description The lights that are there, as they are called. */
            ambient_as_metered: string[];
            /** @description Cautions where something could hurt. */
            cautions: string[];
            /** @description The lines of the stops chart. */
            chart: string[];
            /** @description The gel and the colours. */
            colour: components["schemas"]["ToldColour"];
            /** @description What one step of each control is. */
            controls: components["schemas"]["ToldControl"][];
            /** @description Settings as engraved. */
            engraved: components["schemas"]["Engraved"];
            /** @description The language of all that follows. */
            language: components["schemas"]["Language"];
            /** @description Settings for each later time. */
            later: components["schemas"]["ToldLater"][];
            /** @description The three lines, and how sure they are. */
            lines: components["schemas"]["Lines"];
            /** @description Where the sitters should stand instead; null where they stay. */
            moved?: string | null;
            /** @description What to do or to know, the important things first. */
            notes: string[];
            /** @description Power and zoom of each reach, such as "zoom 50 at 1/4". */
            reach: string[];
            /** @description What the path tracer says. */
            referee: string;
            /** @description What may be a little different. */
            sensitivities: string[];
            /** @description What is lacking and what would help; null when nothing is. */
            shortfall?: components["schemas"]["ToldShortfall"] | null;
            /** @description Every way of lighting that was considered. */
            surfaces: components["schemas"]["ToldSurface"][];
            /** @description What the doubt is made of. */
            uncertainty: components["schemas"]["ToldGuess"][];
            /** @description What the way of the light is called: "left wall", "white board, held". */
            way: string;
            /** @description Every wish. */
            wishes: components["schemas"]["ToldWish"][];
        };
        /** @description Another answer. */
        ToldAlternative: {
            /** @description Where it points the flash. */
            aim: string;
            /** @description Its camera line. */
            camera: string;
            /** @description Its flash line. */
            flash: string;
            /** @description The surface, the board, the bare flash. */
            name: string;
            /** @description The one reason to prefer it. */
            prefer: string;
        };
        /** @description The gel and the colours. */
        ToldColour: {
            /** @description The lights that meet at the face. */
            sources: string[];
            /** @description The parts of the picture, such as "face, lit side". */
            zones: string[];
        };
        /** @description One step of a control. */
        ToldControl: {
            /** @description The control, such as "shutter". */
            name: string;
            /** @description The step, such as "1/3 stop slower". */
            step: string;
        };
        /** @description One guess. */
        ToldGuess: {
            /** @description The input. */
            input: string;
            /** @description What is assumed of it. */
            spread: string;
        };
        /** @description Settings for a later time. */
        ToldLater: {
            /** @description The same with a shutter that can be held. */
            instead?: string | null;
            /** @description What is touched, such as "shutter 1/50, all else untouched". */
            then: string;
        };
        /** @description A change that makes the ask possible. */
        ToldOffer: {
            /** @description What it costs the look. */
            cost: string;
            /** @description The answer that it leads to, in one line. */
            then: string;
            /** @description What to do. */
            what: string;
        };
        /** @description What is short when something insisted on is missed, and what would help. */
        ToldShortfall: {
            /** @description The changes that make the ask possible. */
            changes: components["schemas"]["ToldOffer"][];
            /** @description Changes that do not help. */
            tried: string[];
            /** @description What is short and by how much, in one sentence. */
            words: string;
        };
        /** @description A way of lighting. */
        ToldSurface: {
            /** @description What it is called. */
            name: string;
            /** @description Why, or why not. */
            why: string;
        };
        /** @description A wish. */
        ToldWish: {
            /** @description What was asked. */
            asked: string;
            /** @description What the answer makes of it. */
            found: string;
            /** @description How near that comes. */
            state: string;
        };
        /** @description How far the first frame may be off, and why. */
        Uncertainty: {
            /** @description What it is made of, largest first. */
            parts: components["schemas"]["UncertaintyPart"][];
            /**
             * Format: double
             * @description About nine frames in ten fall within this many stops.
             */
            within_stops: number;
        };
        /** @description One guess and what it does to the exposure. */
        UncertaintyPart: {
            /** @description What is assumed of it. */
            assumed: components["schemas"]["Assumed"];
            /** @description The input. */
            input: components["schemas"]["Guess"];
            /**
             * Format: double
             * @description One standard deviation of the exposure from it, in stops.
             */
            standard_deviation_stops: number;
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
        Verdict: "chosen" | "possible" | "poor" | "unusable";
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
        /** @description What a way of lighting is, whatever it is called: the surface, the board, or the front that makes the light. */
        WayId: {
            /** @constant */
            is: "dome";
        } | {
            /** @constant */
            is: "bounce_card";
        } | {
            /** @constant */
            is: "umbrella";
        } | {
            /** @constant */
            is: "softbox";
        } | {
            /** @constant */
            is: "direct";
        } | {
            /** @description The face. */
            face: components["schemas"]["FaceName"];
            /** @constant */
            is: "face";
        } | {
            /** @description The face that carries most of the light. */
            face: components["schemas"]["FaceName"];
            /** @constant */
            is: "corner";
            /** @description The face that carries much of the rest. */
            with: components["schemas"]["FaceName"];
        } | {
            /** @constant */
            is: "standing";
            /** @description Its name. */
            name: string;
        } | {
            /** @constant */
            is: "held_board";
            /** @description Its name. */
            name: string;
        } | {
            /** @constant */
            is: "open";
        };
        /** @description Why a way of lighting is the answer, or is not. */
        Why: {
            /** @constant */
            is: "chosen";
            /** @description Whether the notes say more of it. */
            noted: boolean;
        } | {
            /** @description Its light against the answer's, positive stronger; `None` where both are about alike. */
            against_answer_stops?: components["schemas"]["Stops"] | null;
            /**
             * Format: double
             * @description Aperture that full power gives at ISO 100.
             */
            full_power_aperture: number;
            /** @constant */
            is: "not";
            /** @description The reasons. */
            reasons: components["schemas"]["Reason"][];
        };
        /** @description Something wished, with the amount that was asked. */
        Wish: {
            /** @constant */
            wish: "exposed";
        } | {
            /** @description At least so many. */
            stops: components["schemas"]["Stops"];
            /** @constant */
            wish: "in_hand";
        } | {
            /**
             * Format: double
             * @description At most so many seconds.
             */
            seconds: number;
            /** @constant */
            wish: "recycle";
        } | {
            /** @constant */
            wish: "neutral_skin";
        } | {
            /** @constant */
            wish: "no_green_magenta";
        } | {
            /**
             * Format: double
             * @description Degrees from the nose.
             */
            azimuth_deg: number;
            /** @description The side, if it matters. */
            side?: components["schemas"]["Side"] | null;
            /**
             * Format: double
             * @description Degrees either way.
             */
            tolerance_deg: number;
            /** @constant */
            wish: "key_from";
        } | {
            /**
             * Format: double
             * @description Degrees above the eyes.
             */
            elevation_deg: number;
            /** @constant */
            wish: "key_height";
        } | {
            /** @description Whether the eye on the lit side decides: a key from far round leaves the other one in the shadow. */
            lit_side: boolean;
            /** @description Sockets against the cheeks below them, at least so much. */
            stops: components["schemas"]["Stops"];
            /** @constant */
            wish: "open_eyes";
        } | {
            /** @constant */
            wish: "soft";
        } | {
            /** @constant */
            wish: "hard";
        } | {
            /** @description To one. */
            ratio: components["schemas"]["Ratio"];
            /** @constant */
            wish: "ratio";
        } | {
            /** @description At most so far apart. */
            stops: components["schemas"]["Stops"];
            /** @constant */
            wish: "faces_within";
        } | {
            /** @description Against the face. */
            stops: components["schemas"]["Stops"];
            /** @constant */
            wish: "background";
        } | {
            /** @constant */
            wish: "ambient_out";
        } | {
            /** @description Against an exact exposure. */
            stops: components["schemas"]["Stops"];
            /** @constant */
            wish: "ambient_at";
        } | {
            /** @description So far under the light that is there, positive. */
            stops: components["schemas"]["Stops"];
            /** @constant */
            wish: "flash_under";
        } | {
            /** @description Its name. */
            name: string;
            /** @description Against normal. */
            stops: components["schemas"]["Stops"];
            /** @constant */
            wish: "zone";
        } | {
            /** @description Against the balance, positive warmer; 0 is neutral. */
            mired: components["schemas"]["MiredShift"];
            /** @description Whether the shadow side decides, being further off than the lit one. */
            shadow_side: boolean;
            /** @constant */
            wish: "skin";
        } | {
            /** @description Against the balance, positive warmer; 0 is neutral. */
            mired: components["schemas"]["MiredShift"];
            /** @constant */
            wish: "room";
        };
        /** @description What a wish is about, which also says the unit of what was found and of how far that is off. */
        WishKind: "exposure" | "power" | "recycle" | "cast" | "green_magenta" | "direction" | "height" | "eyes" | "softness" | "ratio" | "evenness" | "background" | "ambient" | "fill" | "skin_colour" | "room_colour" | "zone";
        /** @description How near an answer comes to a wish. */
        WishState: "kept" | "nearly" | "missed";
        /** @description What a piece of work makes. */
        WorkKind: "answer" | "proof" | "live";
        /** @description What gives way to the other wish. */
        Yielding: "ratio" | "direction" | "side" | "neutral_skin" | "softness";
        /** @description Where a zone comes out. */
        ZoneLevel: {
            /** @description Stops from normal. */
            level_stops: components["schemas"]["Stops"];
            /** @description Its name. */
            name: string;
            /** @description Its colour temperature, where the shoot says it. */
            temperature_k?: components["schemas"]["Kelvin"] | null;
            /** @description Where it was wished. */
            wish_stops?: components["schemas"]["Stops"] | null;
        };
        /** @description The level, or the change, of a zone. */
        ZoneStops: {
            /** @description Its name. */
            name: string;
            /** @description Stops. */
            stops: components["schemas"]["Stops"];
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
            query?: {
                lang?: "en" | "de" | null;
            };
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
            query?: {
                lang?: "en" | "de" | null;
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
                lang?: "en" | "de" | null;
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
                lang?: "en" | "de" | null;
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
            query?: {
                lang?: "en" | "de" | null;
            };
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
            query?: {
                lang?: "en" | "de" | null;
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
            query?: {
                lang?: "en" | "de" | null;
            };
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
            query?: {
                lang?: "en" | "de" | null;
            };
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
                lang?: "en" | "de" | null;
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
            query?: {
                lang?: "en" | "de" | null;
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
            query?: {
                lang?: "en" | "de" | null;
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
            query?: {
                lang?: "en" | "de" | null;
            };
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
                lang?: "en" | "de" | null;
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
            query?: {
                lang?: "en" | "de" | null;
            };
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
            query?: {
                lang?: "en" | "de" | null;
            };
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
            query?: {
                lang?: "en" | "de" | null;
            };
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
