"""Countermovement jumps as force plates recorded them: forces from unweighting to feet off, summed to heights.

BMC repository (M. Duarte, BMClab, UFABC), data/GRFZjump.txt (600 a second), GRFZjump_m.txt and GRFZjump_n.txt (300 a
second, as their flight has it), CC BY 4.0; carried over in whole newtons. Of two more records, jump1 and jump2, only
the integrated figures are carried over (TOLD), and a push with just these is made.
"""

import math
from dataclasses import dataclass

import numpy as np
from leapwright.analysis import Followed, Track
from leapwright.analysis.world import STANDARD_GRAVITY
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

from .pieces import human_push

G = STANDARD_GRAVITY
GIVE = 0.3
"""Meters over which the landing gives way, at constant force, since the record's own landing is not carried over
(ours)."""

GRFZJUMP = """
610 608 610 614 612 614 604 603 600 595 605 592 592 597 587 589 578 589 583 581 570 567 575 570 566 558 559 545 554 546
543 543 518 513 527 521 498 500 484 491 484 474 452 456 453 448 427 434 412 405 414 402 393 391 387 375 378 371 354 346
359 353 342 339 339 329 330 326 305 306 317 299 298 303 302 302 298 296 283 284 292 290 287 284 291 297 282 299 281 283
286 284 288 287 300 297 305 295 286 282 301 291 289 289 293 292 295 281 304 297 293 302 309 300 309 303 311 299 314 318
324 325 311 322 314 330 339 342 345 346 349 362 363 356 378 390 382 405 405 407 433 441 438 434 453 454 465 457 477 477
495 503 501 509 518 525 538 534 535 540 544 547 552 576 573 586 581 602 591 598 615 608 617 618 610 624 622 633 637 645
638 641 655 654 655 652 660 664 658 667 662 679 683 684 694 699 701 712 698 706 728 719 726 736 728 742 755 758 760 760
783 785 791 797 806 808 807 827 826 839 837 857 865 860 882 897 902 906 926 935 940 961 966 976 992 996 1009 1013 1019
1039 1060 1060 1077 1087 1109 1121 1135 1131 1146 1161 1179 1194 1203 1206 1227 1232 1238 1266 1274 1281 1294 1304 1303
1315 1323 1334 1347 1340 1343 1362 1377 1371 1381 1385 1382 1394 1395 1383 1404 1403 1410 1411 1410 1417 1419 1404 1400
1422 1409 1416 1417 1414 1416 1417 1412 1391 1406 1408 1401 1399 1392 1386 1375 1384 1383 1379 1371 1353 1357 1362 1350
1356 1354 1340 1343 1329 1339 1337 1311 1324 1312 1301 1311 1311 1308 1287 1295 1297 1282 1277 1287 1265 1261 1264 1260
1266 1265 1245 1262 1260 1245 1246 1258 1253 1253 1241 1245 1246 1239 1229 1243 1232 1231 1221 1216 1225 1223 1213 1203
1217 1207 1210 1211 1217 1206 1213 1207 1197 1211 1205 1213 1198 1207 1201 1197 1206 1205 1187 1185 1205 1194 1204 1186
1192 1183 1202 1199 1187 1200 1200 1192 1198 1195 1190 1175 1171 1175 1189 1160 1176 1162 1153 1147 1155 1147 1124 1119
1126 1104 1102 1085 1081 1060 1045 1032 996 996 954 934 924 900 874 847 817 787 742 726 675 653 593 564 518 478 435 374
336 277 242 183 160 127 77 59 49 16
"""
GRFZJUMP_M = """
721 720 718 718 718 715 714 711 711 708 704 701 697 694 692 686 685 678 676 670 668 663 656 651 647 640 636 627 623 618
611 604 596 591 583 575 569 560 555 544 537 526 520 510 505 495 490 483 480 475 474 469 469 471 475 474 479 483 490 492
495 495 497 498 497 497 498 500 506 511 514 518 524 528 535 534 539 538 540 539 538 537 540 545 554 557 564 567 574 581
582 585 589 596 602 605 611 615 624 629 632 636 642 647 655 658 667 668 679 685 695 701 711 723 736 745 758 773 789 806
825 842 863 884 902 921 940 959 982 1000 1020 1035 1055 1069 1086 1095 1109 1117 1129 1137 1147 1154 1161 1168 1172 1174
1179 1180 1185 1188 1192 1196 1199 1204 1211 1217 1226 1236 1249 1259 1271 1283 1295 1304 1319 1328 1342 1352 1364 1373
1383 1390 1398 1405 1412 1415 1421 1424 1426 1430 1431 1429 1430 1430 1431 1427 1426 1424 1424 1421 1419 1419 1420 1420
1425 1423 1428 1428 1433 1435 1436 1438 1442 1443 1445 1443 1446 1446 1449 1448 1447 1448 1450 1450 1450 1447 1449 1449
1448 1443 1438 1434 1430 1420 1413 1398 1386 1368 1349 1322 1294 1257 1219 1171 1114 1042 959 861 749 626 499 371 248
150 82 40
"""
GRFZJUMP_N = """
656 657 657 656 651 648 644 640 633 625 617 611 603 596 584 575 567 558 549 540 528 520 508 497 486 476 466 455 443 432
418 407 396 384 370 358 341 330 313 297 281 267 252 240 223 211 201 190 180 170 164 162 159 158 155 156 156 160 162 168
171 175 175 176 175 176 171 176 176 179 181 188 193 205 211 225 236 250 263 273 283 296 303 316 325 341 361 385 414 451
491 538 592 653 719 785 847 905 952 996 1031 1060 1084 1104 1116 1130 1145 1164 1192 1224 1257 1300 1336 1375 1411 1450
1491 1531 1572 1613 1651 1687 1719 1745 1765 1778 1782 1783 1778 1772 1766 1762 1756 1752 1741 1733 1722 1717 1708 1701
1696 1695 1690 1689 1681 1680 1675 1672 1666 1660 1655 1654 1645 1639 1629 1618 1606 1597 1587 1583 1575 1569 1564 1560
1557 1557 1560 1567 1569 1578 1587 1601 1611 1624 1631 1641 1650 1657 1662 1665 1665 1669 1662 1656 1645 1631 1612 1588
1556 1520 1473 1421 1361 1290 1207 1113 1009 885 736 559 375 234 136 83 32
"""
FORCES = {"GRFZjump": (600.0, 622.0, GRFZJUMP), "GRFZjump_m": (300.0, 733.0, GRFZJUMP_M)}
FORCES |= {"GRFZjump_n": (300.0, 654.0, GRFZJUMP_N)}
"""Samples a second, body weight in quiet standing (N), and the forces."""
TOLD = {"jump1": (0.467, 2.655, 0.307, 0.024), "jump2": (0.512, 2.748, 0.340, 0.022)}
"""Push distance (m), takeoff speed (m/s), push time (s), and seconds by which the speed peaks before feet off."""
RECORDS = (*FORCES, *TOLD)


@dataclass(frozen=True, eq=False)
class Recorded:
    """One record: (n,) seconds from its first sample and heights over the lowest point up to feet off; and its push."""

    seconds: np.ndarray
    heights: np.ndarray
    speed: float
    distance: float
    push_seconds: float

    @property
    def shape(self) -> float:
        """k = t v / (2 d), to where the feet leave."""
        return self.push_seconds * self.speed / (2.0 * self.distance)

    def track(self, *, fps: float, phase: float = 0.0, follows: Followed = Followed.CENTER_OF_MASS) -> Track:
        """Stand, push as recorded, fly freely, and land as deep as GIVE; sampled from a share of a frame on."""
        off = float(self.seconds[-1])
        air = 2.0 * self.speed / G
        absorb = 2.0 * GIVE / self.speed
        t = np.arange(int((off + 1.0 + air + absorb + 0.6) * fps)) / fps + phase / fps - 1.0
        top = float(self.heights[-1])
        up = np.interp(t, self.seconds, self.heights)
        air_t = np.clip(t - off, 0.0, air)
        sunk = np.clip((t - off - air) / absorb, 0.0, 1.0)
        z = np.where(t <= off, up, top + self.speed * air_t - 0.5 * G * air_t**2 - GIVE * (1.0 - (1.0 - sunk) ** 2))
        return Track("plate", fps, np.arange(len(t), dtype=float), np.stack((0 * z, 0 * z, z + 0.6), axis=1),
                     follows=follows)


def recorded(name: str) -> Recorded:
    """Sum one record's forces, or make the push that has its figures."""
    if name in TOLD:
        return _told(*TOLD[name])
    rate, weight, text = FORCES[name]
    force = np.array(text.split(), dtype=float)
    seconds = np.arange(len(force)) / rate
    pull = CubicSpline(seconds, G * (force - weight) / weight)
    fast = pull.antiderivative()
    high = fast.antiderivative()
    heights = high(seconds)
    low = int(heights.argmin())
    return Recorded(
        seconds, heights - heights[low], float(fast(seconds[-1])), float(heights[-1] - heights[low]),
        float(seconds[-1] - seconds[low]),
    )  # fmt: skip


def _told(distance: float, speed: float, seconds: float, lead: float) -> Recorded:
    """Return a push that falls along two lines, so long, so far, so fast; from a stand as high as it leaves the
    ground.
    """
    front = brentq(
        lambda front: human_push(0.0, distance, speed, gravity=G, lead=lead, front=front)[0].seconds - seconds,
        -0.5, 0.9,
    )  # fmt: skip
    piece, pull = human_push(0.0, distance, speed, gravity=G, lead=lead, front=front)
    dip = math.sqrt(6.0 * (distance - 0.15) / pull) * 1.5
    t = np.linspace(-dip, piece.seconds, 2000)
    s = np.clip(-t / dip, 0.0, 1.0)
    bend = 0.5 * pull * dip**2
    stand = distance - 0.15
    # A quintic from rest on the stand down to the lowest point, with the push's own acceleration there.
    down = bend * s**2 + (10 * stand - 3 * bend) * s**3 + (3 * bend - 15 * stand) * s**4 + (6 * stand - bend) * s**5
    heights = np.where(t < 0.0, down, piece.height(np.maximum(t, 0.0)))
    return Recorded(t + dip, heights, speed, distance, piece.seconds)
