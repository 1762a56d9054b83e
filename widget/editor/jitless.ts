import * as z from "zod";

// The policy of the editor's room forbids code made from text, and merely trying is reported. To be imported before any schema.
z.config({ jitless: true });
