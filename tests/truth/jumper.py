"""A jumper simulated in MuJoCo: foot, shank, thigh and trunk, actuated at ankle, knee and hip.

The trunk slides on a vertical rail (no friction), so balance needs no controller and the only vertical forces
on the body are its weight and the ground's. It lowers itself into a crouch, holds, pushes, flies, lands,
gives way and stands up. The truth is the engine's own: contact forces and the whole body's center of mass.
"""

import math
from dataclasses import dataclass

import mujoco
import numpy as np
from leapwright.analysis import Track

SEGMENT = 0.42
"""Length of thigh and of shank, meters."""
ANKLE = 0.08
SOLE = 0.02
STAND = 0.15
"""Radians of thigh lean when standing."""
LOWERING = 0.8
STEP = 0.0005

FADE = 0.8
"""Share of the leg's force that is gone when the knee is straight."""

GAINS = np.array([1.0, 1.0, 0.1])
"""Of hip, knee and ankle: the foot is light."""

MODEL = f"""
<mujoco>
  <compiler angle="radian"/>
  <option timestep="{STEP}" gravity="0 0 -{{gravity}}" integrator="implicitfast" cone="elliptic"/>
  <default>
    <joint type="hinge" axis="0 1 0" damping="0.4" armature="0.005"/>
    <geom type="capsule" contype="0" conaffinity="0"/>
    <motor ctrllimited="false"/>
  </default>
  <worldbody>
    <geom name="ground" type="plane" size="5 5 1" contype="1" conaffinity="1" friction="1.5"
          solref="0.03 1" solimp="0.3 0.95 0.015"/>
    <body name="trunk" pos="0 0 {2 * SEGMENT + ANKLE}">
      <joint name="rail" type="slide" axis="0 0 1" damping="0" armature="0"/>
      <geom fromto="0 0 0.05 0 0 0.5" size="0.11" mass="46"/>
      <body name="thigh">
        <joint name="hip"/>
        <geom fromto="0 0 0 0 0 -{SEGMENT}" size="0.06" mass="15"/>
        <body name="shank" pos="0 0 -{SEGMENT}">
          <joint name="knee" limited="true" range="0.05 2.6" solreflimit="0.004 1"/>
          <geom fromto="0 0 0 0 0 -{SEGMENT}" size="0.045" mass="7"/>
          <body name="foot" pos="0 0 -{SEGMENT}">
            <joint name="ankle" limited="true" range="-1.3 0.9" solreflimit="0.004 1"/>
            <geom fromto="-0.05 0 -{ANKLE - 0.02} 0.14 0 -{ANKLE - 0.02}" size="0.02" mass="2"/>
            <geom name="heel" type="sphere" pos="-0.06 0 -{ANKLE - 0.02}" size="0.02" mass="0.05"
                  contype="1" conaffinity="1" friction="1.5" solref="0.03 1" solimp="0.3 0.95 0.015"/>
            <geom name="toe" type="sphere" pos="0.15 0 -{ANKLE - 0.02}" size="0.02" mass="0.05"
                  contype="1" conaffinity="1" friction="1.5" solref="0.03 1" solimp="0.3 0.95 0.015"/>
          </body>
        </body>
      </body>
    </body>
  </worldbody>
  <actuator>
    <motor joint="hip"/><motor joint="knee"/><motor joint="ankle"/>
  </actuator>
</mujoco>
"""


@dataclass(frozen=True, slots=True)
class Push:
    """What the jumper is told: crouch (radians of thigh lean), leg force (body weights), gravity (m/s²), seconds
    of hold, and the meters to give way over when it lands."""

    crouch: float = 0.9
    force: float = 2.2
    gravity: float = 9.80665
    hold: float = 0.3
    give: float = 0.25


@dataclass(frozen=True, slots=True, eq=False)
class Simulated:
    """What happened: times (n,), center of mass and hip (n, 3), ground force (n,) N, feet (n, 2, 3); and the truth."""

    seconds: np.ndarray
    com: np.ndarray
    hip: np.ndarray
    force: np.ndarray
    feet: np.ndarray
    weight: float
    gravity: float
    push: float
    takeoff: float
    landing: float

    def at(self, second: float) -> float:
        """Return the height of the center of mass then, meters."""
        return float(np.interp(second, self.seconds, self.com[:, 2]))

    @property
    def apex(self) -> float:
        return float(self.seconds[np.argmax(self.com[:, 2])])

    @property
    def slowed(self) -> float:
        """Seconds until the landing has taken a quarter of the falling speed; earlier the heights hardly show it."""
        speed = np.gradient(self.com[:, 2], self.seconds)
        touch = int(np.searchsorted(self.seconds, self.landing))
        return float(self.seconds[touch + np.argmax(speed[touch:] > 0.75 * speed[touch])])

    @property
    def jump_height(self) -> float:
        return float(self.com[:, 2].max()) - self.at(self.takeoff)

    @property
    def push_distance(self) -> float:
        pushing = self.seconds <= self.takeoff
        return self.at(self.takeoff) - float(self.com[pushing, 2].min())

    @property
    def mean_push_force(self) -> float:
        """Ground force averaged over the push distance, in body weights: the integral of F dz over d."""
        low = int(np.argmin(np.where(self.seconds <= self.takeoff, self.com[:, 2], np.inf)))
        up = slice(low, int(np.searchsorted(self.seconds, self.takeoff)) + 1)
        work = np.trapezoid if hasattr(np, "trapezoid") else np.trapz
        return float(work(self.force[up], self.com[up, 2])) / self.weight / self.push_distance

    def track(
        self, *, fps: float, phase: float = 0.0, with_feet: bool = False, hip: bool = False, size: float = 1.0
    ) -> Track:
        """Sample the center of mass or the hip (and the feet) at fps; frame 1 lies `phase` frames into the run.

        size: a body so many times as tall moves alike, its times as the square root of it (equal Froude
        number, Alexander & Jayes 1983).
        """
        count = int((self.seconds[-1] * np.sqrt(size) - phase / fps) * fps) + 1
        at = np.minimum((np.arange(count) + phase) / fps / np.sqrt(size), self.seconds[-1])
        pick = np.clip(np.rint(at / STEP).astype(int), 0, len(self.seconds) - 1)
        feet = size * self.feet[pick] if with_feet else None
        # The rail holds the body sideways, so only the height is free motion.
        path = size * (self.hip if hip else self.com)[pick] * [0.0, 0.0, 1.0]
        return Track("simulated", fps, np.arange(1, count + 1), path, feet=feet)

    def frame(self, second: float, *, fps: float, phase: float = 0.0, size: float = 1.0) -> float:
        """Return the frame of `track` at which this second of the run lies."""
        return second * np.sqrt(size) * fps - phase + 1.0


def simulate(push: Push) -> Simulated:
    """Run one jump. Raises RuntimeError when the told push does not leave the ground."""
    model = mujoco.MjModel.from_xml_string(MODEL.format(gravity=push.gravity))
    data = mujoco.MjData(model)
    weight = float(model.body_subtreemass[1]) * push.gravity
    nerves = Nerves(push, weight)
    soles = [model.geom("heel").id, model.geom("toe").id]
    rows: list[tuple[float, ...]] = []
    for _ in range(round((nerves.start + 4.0) / STEP)):
        mujoco.mj_step1(model, data)
        here = (data.time, *data.subtree_com[1], *data.xpos[1])
        feet = data.geom_xpos[soles] - [0.0, 0.0, SOLE]
        data.ctrl[:] = nerves.torques(data, float(feet[:, 2].min()))
        mujoco.mj_step2(model, data)
        rows.append((*here, _ground_force(model, data), *feet.ravel()))
        if nerves.stopped is not None and data.time > nerves.stopped + 2.0:
            break
    table = np.array(rows)
    force = table[:, 7]
    pushing = np.where(table[:, 0] < nerves.start, weight, force)
    takeoff, landing = _longest_flight(table[:, 0], pushing)
    feet = table[:, 8:].reshape(-1, 2, 3)
    path, hip = table[:, 1:4], table[:, 4:7]
    return Simulated(table[:, 0], path, hip, force, feet, weight, push.gravity, nerves.start, takeoff, landing)


def _ground_force(model: mujoco.MjModel, data: mujoco.MjData) -> float:
    """Return vertical contact force, N: the ground's normal is z."""
    wrench, total = np.zeros(6), 0.0
    for contact in range(data.ncon):
        mujoco.mj_contactForce(model, data, contact, wrench)
        total += wrench[0]
    return total


@dataclass(slots=True)
class Nerves:
    """What drives the joints: lower, hold, push, fly, give way, stand up; each from what the body feels."""

    push: Push
    weight: float
    flown: float | None = None
    landed: float | None = None
    speed: float = 0.0
    stopped: float | None = None
    lean: float = 0.0

    @property
    def start(self) -> float:
        """The second at which the push begins."""
        return 0.4 + LOWERING + self.push.hold

    def torques(self, data: mujoco.MjData, sole: float) -> np.ndarray:
        """Hip, knee and ankle torque, N m; sole: meters from the ground to the lower end of the foot."""
        now, knee = data.time, data.qpos[2]
        if now < self.start:
            lean = STAND + (self.push.crouch - STAND) * _ease((now - 0.4) / LOWERING)
            return self._pose(data, lean, stiff=4000.0, damp=200.0)
        if self.flown is None:
            self.flown = now if sole > 0.001 else None
            drive = 0.9 + (self.push.force - 0.9) * _ease((now - self.start) / 0.04)
            return self._press(data, drive * (1.0 - FADE * _ease((0.40 - 0.5 * knee) / 0.35)))
        if self.landed is None:
            if sole <= 0.0 and now > self.flown + 0.05:
                self.landed, self.speed = now, float(data.qvel[0])
            return self._pose(data, 0.25, stiff=250.0, damp=12.0)
        if self.stopped is None:
            if data.qvel[0] > -0.02:
                self.stopped, self.lean = now, 0.5 * knee
            return self._press(data, 1.0 + self.speed**2 / (2.0 * self.push.gravity * self.push.give))
        lean = self.lean + (STAND - self.lean) * _ease((now - self.stopped - 0.2) / 1.5)
        return self._pose(data, lean, stiff=2500.0, damp=150.0)

    def _pose(self, data: mujoco.MjData, lean: float, *, stiff: float, damp: float) -> np.ndarray:
        """Hold thigh and shank at this lean, foot flat; weaker where the body weighs less."""
        target = np.array([-lean, 2.0 * lean, -lean])
        heavy = self.push.gravity / 9.80665
        return GAINS * (heavy * stiff * (target - data.qpos[1:4]) - math.sqrt(heavy) * damp * data.qvel[1:4])

    def _press(self, data: mujoco.MjData, force: float) -> np.ndarray:
        """Press on the ground with this many body weights, under the ankle, under the toe as the knee opens."""
        ahead = 0.95 * _ease((0.7 - 0.5 * data.qpos[2]) / 0.45)
        joints, toe = data.xanchor[1:4, 0], data.xpos[4, 0] + 0.15
        pressed = joints[2] + ahead * (toe - joints[2])
        level = (1.0 - ahead) * (-200.0 * data.qpos[1:4].sum() - 8.0 * data.qvel[1:4].sum())
        return force * self.weight * (pressed - joints) + [0.0, 0.0, level]


def _longest_flight(seconds: np.ndarray, force: np.ndarray) -> tuple[float, float]:
    """Return first and last moment of the longest stretch without ground force."""
    air = np.flatnonzero(np.diff(np.concatenate([[0], (force <= 0.0).astype(int), [0]])))
    spans = air.reshape(-1, 2)
    if len(spans) == 0:
        raise RuntimeError("the jumper never left the ground")
    first, last = spans[np.argmax(spans[:, 1] - spans[:, 0])]
    return float(seconds[first]), float(seconds[min(last, len(seconds) - 1)])


def _ease(s: float) -> float:
    s = min(max(s, 0.0), 1.0)
    return s * s * (3.0 - 2.0 * s)
