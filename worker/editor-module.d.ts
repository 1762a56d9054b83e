/** The scripts of the editor's room by name, made by `npm run build`. */
declare module "*/generated/editor.json" {
  const scripts: Readonly<Record<string, string>>;
  export default scripts;
}
