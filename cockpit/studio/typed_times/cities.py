"""Large cities that no IANA zone is named after, and the zone that each keeps the clock of.

From memory, no source; a city that is known in two zones, such as Portland, is left out.
"""

from collections.abc import Mapping
from types import MappingProxyType

_BY_ZONE = {
    "America/New_York": "boston, philadelphia, pittsburgh, baltimore, washington dc, charlotte, atlanta, miami, orlando, cleveland",
    "America/Chicago": "dallas, houston, austin, san antonio, minneapolis, milwaukee, new orleans, nashville, memphis, st louis",
    "America/Denver": "salt lake city, albuquerque, colorado springs",
    "America/Phoenix": "tucson",
    "America/Los_Angeles": "seattle, san francisco, san diego, oakland, sacramento, las vegas",
    "America/Toronto": "ottawa, quebec",
    "America/Edmonton": "calgary",
    "America/Sao_Paulo": "rio de janeiro",
    "Europe/London": "edinburgh, glasgow, cardiff, leeds",
    "Europe/Berlin": "munich, hamburg, frankfurt, cologne",
    "Europe/Zurich": "geneva, basel",
    "Europe/Madrid": "barcelona",
    "Europe/Rome": "milan, naples",
    "Asia/Kolkata": "mumbai, delhi, new delhi, bangalore, bengaluru, chennai, pune",
    "Asia/Shanghai": "beijing, shenzhen, guangzhou",
    "Asia/Tokyo": "osaka, kyoto",
    "Africa/Johannesburg": "cape town, durban",
}
# By the key of a place: no case, no dots.
LARGE_CITIES: Mapping[str, str] = MappingProxyType(
    {city: zone for zone, cities in _BY_ZONE.items() for city in cities.split(", ")}
)
