/** The sentences that the first screen does without; those of the printed packet stay with the server. */
import { learnWords, type Sentences } from "./words";

const rest = import.meta.glob<Sentences>(["../../server/words/*.json", "!../../server/words/{frame,holds,packet,signin,sync,yard}.json"], { eager: true, import: "default" });

learnWords(Object.values(rest));
