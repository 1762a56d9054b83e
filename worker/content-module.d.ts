/** The bundled content's files, path → text, made by `npm run build`. */
declare module "*/generated/content.json" {
  const files: Readonly<Record<string, string>>;
  export default files;
}
