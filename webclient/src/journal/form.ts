/** Parts of another form than this app's, kept here by an earlier version or sent by a server of another, are not read. */

import { FORM } from "../rules";

/** Whether what stands here, or comes in this answer, is of the form that this app reads. Before forms were told it was 0. */
export const readable = ({ form = 0 }: { form?: number }): boolean => form === FORM;
