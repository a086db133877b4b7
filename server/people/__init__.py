"""Accounts, passcodes and sessions: who is at the other end of a request.

Names, crews and roles of people are entries and parts; only what must never travel to a phone is kept here.
"""

from server.people.accounts import account_of, accounts, disable, set_passcode, usable
from server.people.device_keys import is_its_phone
from server.people.passcodes import problem_with
from server.people.sensors import Sensor, make_sensor, revoke_sensor, sensor_of, sensors
from server.people.sessions import COOKIE, Session, end_session, person_of, start_session
from server.people.sign_in import check_passcode

__all__ = [
    "COOKIE",
    "Sensor",
    "Session",
    "account_of",
    "accounts",
    "check_passcode",
    "disable",
    "end_session",
    "is_its_phone",
    "make_sensor",
    "person_of",
    "problem_with",
    "revoke_sensor",
    "sensor_of",
    "sensors",
    "set_passcode",
    "start_session",
    "usable",
]
