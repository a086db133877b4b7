import { useEffect, useRef, useState } from "preact/hooks";
import { saveUnsent, syncNow, state } from "../../journal";
import { Choice, chooseSetting, Field, Passcode, setting, type Setting } from "../../parts";
import { session, signIn, signOut, switchTo, yardNames } from "../../people";
import { go, to } from "../../route";
import { language, say, speak, t, type Language } from "../../words";
import { Screen } from "../common";

/** Language and light: on the first screen and under one's own name. */
export function Settings() {
  return (
    <section class="block">
      <Choice<Language>
        label={t("frame.language")}
        options={[
          { key: "en", label: t("frame.english") },
          { key: "es", label: t("frame.spanish") },
        ]}
        value={language.value}
        onChange={speak}
      />
      <Choice<Setting>
        label={t("frame.light")}
        options={[
          { key: "phone", label: t("frame.light_phone") },
          { key: "day", label: t("frame.light_day") },
          { key: "evening", label: t("frame.light_evening") },
        ]}
        value={setting.value}
        onChange={chooseSetting}
      />
    </section>
  );
}

/** The first screen, and the one where a phone changes hands; `onLeave`: back to who holds it now. */
export function SignIn({ onLeave }: { onLeave?: (() => void) | undefined }) {
  const [names, setNames] = useState<string[]>([]);
  const [name, setName] = useState("");
  const [passcode, setPasscode] = useState("");
  const [error, setError] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  // A second press while the first is under way would be a second enrolment.
  const running = useRef(false);
  useEffect(() => {
    void yardNames().then(setNames);
  }, []);
  const enter = async (): Promise<void> => {
    if (!name.trim() || !passcode) {
      setError(t("yard.both_needed"));
      return;
    }
    if (running.current) return;
    running.current = true;
    setBusy(true);
    const found = await signIn(name.trim(), passcode).finally(() => {
      running.current = false;
      setBusy(false);
    });
    if (!found.ok) {
      setError(say(found.key, { seconds: found.seconds, n: found.seconds }));
      return;
    }
    setError(null);
    void syncNow();
    go(to.yard());
  };
  const slab = { label: t(busy ? "yard.signing_in" : "yard.sign_in"), onPress: () => void enter(), why: null };
  return (
    <Screen title="Rakelight" line={t("yard.what_it_is")} slabs={{ main: slab, ...(onLeave ? { beside: { label: t("frame.never_mind"), onPress: onLeave } } : {}) }}>
      <form
        class="block"
        onSubmit={(event) => {
          event.preventDefault();
          void enter();
        }}
      >
        <Field label={t("yard.your_name")} value={name} onInput={setName} offers={names} autoComplete="username" />
        <Passcode label={t("yard.passcode")} value={passcode} onInput={setPasscode} error={error} />
        <button class="heard" type="submit" tabIndex={-1}>
          {t("yard.sign_in")}
        </button>
      </form>
      <Unsent />
      <Settings />
    </Screen>
  );
}

/** The way out at any time: what no server has taken yet, as a file. */
function Unsent() {
  const { unsent, photosUnsent } = state.value;
  if (unsent + photosUnsent === 0) return null;
  return (
    <button type="button" class="key" onClick={() => void saveUnsent()}>
      {t("yard.save_unsent")}
    </button>
  );
}

/** Who holds this phone; hand it over, sign in again, sign out. */
export function Me() {
  const { holder, people, signedIn } = session.value;
  const [other, setOther] = useState<string | null>(signedIn ? null : (holder?.id ?? null));
  const [adding, setAdding] = useState(false);
  if (adding || !holder) return <SignIn onLeave={holder ? () => setAdding(false) : undefined} />;
  const chosen = people.find(({ id }) => id === other);
  return (
    <Screen title={holder.name} line={holder.roles.map((role) => say(`yard.role.${role}`)).join(", ")} over={t("yard.back")} overHref={to.yard()}>
      <section class="block">
        <h2>{t("yard.phone_with")}</h2>
        <ul class="rows">
          {people.map((person) => (
            <li key={person.id}>
              <button type="button" class="surface-key" aria-pressed={other === person.id} onClick={() => setOther(person.id)}>
                <b>{person.name}</b>
                <span class="second">{person.id === holder.id ? t("yard.holds_it") : ""}</span>
              </button>
            </li>
          ))}
        </ul>
        {chosen && <HandOver key={chosen.id} person={chosen} signedIn={signedIn} />}
        <div class="key-row">
          <button type="button" class="key" onClick={() => setAdding(true)}>
            {t("yard.add_person")}
          </button>
          <button type="button" class="key" onClick={() => void signOut().then(() => go(to.yard()))}>
            {t("yard.sign_out")}
          </button>
        </div>
        {state.value.unsent > 0 && <p class="second">{t("yard.sign_out_keeps")}</p>}
      </section>
      <Unsent />
      <Settings />
    </Screen>
  );
}

/** The passcode of whoever takes the phone: the server's word where it asks to sign in again, else what is kept here. */
function HandOver({ person, signedIn }: { person: { id: string; name: string }; signedIn: boolean }) {
  const [passcode, setPasscode] = useState("");
  const [error, setError] = useState<string | null>(null);
  const over = async (): Promise<void> => {
    const online = signedIn ? null : await signIn(person.name, passcode);
    const found = online?.ok || (online && !online.ok && online.key === "signin.wrong") ? online : await switchTo(person.id, passcode);
    setPasscode("");
    // The phone is in their hands, but nothing goes from it until somebody helps: that has to be said.
    const why = found.ok && online && !online.ok && online.key === "signin.other_phone" ? online : found;
    setError(why.ok ? null : say(why.key, { seconds: why.seconds, n: why.seconds }));
    if (!why.ok) return;
    void syncNow();
    go(to.yard());
  };
  return (
    <form
      class="block"
      onSubmit={(event) => {
        event.preventDefault();
        void over();
      }}
    >
      <Passcode label={t("yard.passcode_of", { name: person.name })} value={passcode} onInput={setPasscode} error={error} />
      <button class="key key-full" type="submit">
        {t("yard.hand_over")}
      </button>
    </form>
  );
}
