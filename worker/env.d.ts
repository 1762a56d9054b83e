/** What the platform hands to every request. The database may be missing: the bundled edition is used then. */
interface Env {
  DB?: D1Database;
}
