"""The invented readings agree with the invented throws."""

from app.demo import load_demo, load_readings
from tests.app.kept_demo import TODAY

OFF_ON_PURPOSE = ("W02", "210", "30.1")  # demo_data/README.md


def test_full_readings_of_the_last_day_are_the_throws_of_that_day():
    demo = load_demo()
    thrown = {(t.athlete, t.ball_mass_g, t.speed_m_s) for t in demo.throws if t.date == "2026-02-20"}
    read = {
        (r.athlete, r.ball_mass_g, r.speed_m_s)
        for r in load_readings()
        if r.date == "2026-02-20" and r.asked_effort == "100"
    }
    assert read - thrown == {OFF_ON_PURPOSE}


def test_own_ball_readings_belong_to_the_reference_throw():
    for athlete in load_demo().athletes:
        own = [
            float(r.speed_m_s)
            for r in load_readings()
            if r.athlete == athlete.athlete and r.ball_mass_g == "145" and r.asked_effort == "100"
        ]
        assert not own or abs(sum(own) / len(own) - float(athlete.own_speed_m_s)) < 0.05


def test_every_reading_can_be_read(make_case):
    for athlete in load_demo().athletes:
        case = make_case(athlete.athlete)
        assert len(case.found.used) == sum(r.athlete == athlete.athlete for r in load_readings())
    assert TODAY.isoformat() > max(r.date for r in load_readings())
