import { Hono } from "hono";
import { requireRole } from "../people/guard.ts";
import type { Gate } from "../people/rate-limit.ts";
import type { PrivateSetting, Setting } from "../setting.ts";
import { makeCheckRoutes } from "./check-routes.tsx";
import { makeContentsRoutes } from "./contents-routes.ts";
import { makeDraftRoutes } from "./draft-routes.tsx";
import { makeEntryRoutes } from "./entry-routes.tsx";
import { makeFileRoutes } from "./file-routes.tsx";
import { makeHistoryRoutes } from "./history-routes.tsx";
import { makeLookRoutes } from "./look-routes.tsx";
import { makeMoveRoutes } from "./move-routes.tsx";
import { makePublishRoutes } from "./publish-routes.tsx";
import type { RoomParts } from "./room.tsx";
import { askEditorToSignIn, makeEditorSignIn } from "./sign-in-routes.tsx";
import { makeTransferRoutes } from "./transfer-routes.tsx";
import { makeTreeRoutes } from "./tree/routes.tsx";

/** The editor's room: everything under /editor. The way in is open; all else asks for an editor. */
export function makeEditorRoom(gate: Gate, parts: RoomParts) {
  const room = new Hono<Setting>();
  room.route("/", makeEditorSignIn(gate));
  const inside = new Hono<PrivateSetting>();
  inside.use(requireRole("editor", askEditorToSignIn));
  inside.route("/", makeDraftRoutes(parts));
  inside.route("/", makeTreeRoutes());
  inside.route("/drafts", makeFileRoutes());
  inside.route("/drafts", makeEntryRoutes());
  inside.route("/drafts", makeCheckRoutes());
  inside.route("/drafts", makeMoveRoutes());
  inside.route("/drafts", makePublishRoutes());
  inside.route("/drafts", makeLookRoutes(parts.shown));
  inside.route("/", makeContentsRoutes());
  inside.route("/", makeTransferRoutes());
  inside.route("/", makeHistoryRoutes());
  room.route("/", inside);
  return room;
}
