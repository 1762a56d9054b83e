import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { buildWidget } from "../../worker/build-widget.ts";
import type { WidgetFiles } from "../../worker/embed/widget-files.ts";
import { shippedFlow } from "../support/shipped-flow.ts";

/** The element's files as the build makes them of the content as shipped. */
export function builtWidget(): Promise<WidgetFiles> {
  return buildWidget(shippedFlow().edition);
}

/** The body of the file of that name. */
export function bodyOf(widget: WidgetFiles, name: string): string {
  const path = Object.keys(widget.files).find((one) => one.endsWith(`/${name}`));
  return widget.files[path ?? ""]?.body ?? "";
}

/** The body of the conversation's program. */
export function restOf(widget: WidgetFiles): string {
  return bodyOf(widget, "check.js");
}

/** Loads the built, minified program itself. */
export async function importRest(
  widget: WidgetFiles,
): Promise<typeof import("../../widget/element/engine.ts")> {
  const file = join(mkdtempSync(join(tmpdir(), "leafturn-widget-")), "check.mjs");
  writeFileSync(file, restOf(widget));
  return import(pathToFileURL(file).href);
}
