/** Put in by the build: where the part lies that reads the caller's own words. */
declare const DESK_SAY: import("../element/import-whole.ts").ProgramFile;
