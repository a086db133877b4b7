/** People: whose hands the phone is in. */

export { readSession, session, signIn, signOut, switchTo, yardNames, type Person } from "./session";
