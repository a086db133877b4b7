/** People: whose hands the phone is in. */

export { digestOf, matches } from "./passcode";
export {
  readSession,
  session,
  signIn,
  signOut,
  switchTo,
  yardNames,
  type Person,
  type Session,
  type SignInResult,
} from "./session";
