"""Rakelight's server: a journal that phones push to, and what is folded from it.

The rooms, and who may import whom (from left to right, never back):

    api -> reports -> journal | photos | people -> rules

rules      pure: entry kinds, the fold, the seen rule, holds, who may do what; `webclient/src/rules` is its twin
journal    the only place that writes entries: taking a push, parts, the chain, release, set-aside
photos     the bytes of photos by their SHA-256, and the sizes made from them
people     names, passcodes, sessions, roles
reports    page data and PDFs made from parts
api        Flask routes: read the request, call one room, write the answer

Beside the rooms: `app` (puts them together), `settings`, `clock` (the only reader of time and chance), `db`,
`migrations`, `words` (every sentence in both languages), `cli` (the `rakelight` command), and `bootstrap` (what
`python3 seed_demo` and `python3 tests` do before anything is installed; standard library only).

A room is imported by its name alone (`from server.rules import fold`); its other files are its own business.
"""
