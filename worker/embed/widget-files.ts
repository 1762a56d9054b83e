/** A file of the element as the server hands it out. */
export interface WidgetFile {
  body: string;
  /** For the `integrity` attribute. */
  integrity: string;
}

/** The files by their path under /embed/, and the paths of the element's first script and of the desk's. */
export interface WidgetFiles {
  first: string;
  desk: string;
  files: Record<string, WidgetFile>;
}
