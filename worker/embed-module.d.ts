/** The element's files, made by `npm run build`. */
declare module "*/generated/embed.json" {
  const files: import("./embed/widget-files.ts").WidgetFiles;
  export default files;
}
