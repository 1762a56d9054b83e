/** A file of the element as the server hands it out. */
export interface WidgetFile {
  body: string;
  /** For the `integrity` attribute. */
  integrity: string;
}

/** The files by their path under /embed/, and the path of the first script. */
export interface WidgetFiles {
  first: string;
  files: Record<string, WidgetFile>;
}
