"""How long to search where nobody says it, so that the whole answer is there in time."""

import time
from math import inf


def seconds_left(answer_s: float, besides: float, least_s: float, most_s: float = inf) -> float:
    """Seconds of search, between the least and the most, that leave so many for the whole answer.

    Beginning and telling take `besides` times as long as the beginning alone has taken of the processor.
    """
    return min(most_s, max(least_s, answer_s - besides * time.process_time()))
