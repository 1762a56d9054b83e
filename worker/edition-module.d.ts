/** The bundled edition, made by `npm run build`. */
declare module "*/generated/edition.json" {
  const edition: import("../flows/edition.ts").Edition;
  export default edition;
}
