"""The instants at which zones change in 2026 and 2027, and the zones that do not; computed once with IANA tzdata 2026f."""

_EUROPE_2026, _EUROPE_2027 = "03-29T01:00 10-25T01:00", "03-28T01:00 10-31T01:00"
_EUROPE = (
    "Europe/London Europe/Paris Europe/Berlin Europe/Athens Europe/Dublin Europe/Lisbon Europe/Chisinau "
    "Atlantic/Azores America/Nuuk"
)
CHANGES = [
    (
        "America/New_York America/Toronto America/Indiana/Indianapolis",
        "03-08T07:00 11-01T06:00",
        "03-14T07:00 11-07T06:00",
    ),
    (
        "America/Chicago America/Indiana/Tell_City America/Indiana/Knox",
        "03-08T08:00 11-01T07:00",
        "03-14T08:00 11-07T07:00",
    ),
    ("America/Denver America/Shiprock", "03-08T09:00 11-01T08:00", "03-14T09:00 11-07T08:00"),
    ("America/Los_Angeles America/Tijuana", "03-08T10:00 11-01T09:00", "03-14T10:00 11-07T09:00"),
    ("America/Anchorage", "03-08T11:00 11-01T10:00", "03-14T11:00 11-07T10:00"),
    ("America/Halifax", "03-08T06:00 11-01T05:00", "03-14T06:00 11-07T05:00"),
    ("America/St_Johns", "03-08T05:30 11-01T04:30", "03-14T05:30 11-07T04:30"),
    (_EUROPE, _EUROPE_2026, _EUROPE_2027),
    ("Asia/Jerusalem", "03-27T00:00 10-24T23:00", "03-26T00:00 10-30T23:00"),
    ("Africa/Cairo", "04-23T22:00 10-29T21:00", "04-29T22:00 10-28T21:00"),
    ("Australia/Sydney Australia/Melbourne", "04-04T16:00 10-03T16:00", "04-03T16:00 10-02T16:00"),
    ("Australia/Adelaide", "04-04T16:30 10-03T16:30", "04-03T16:30 10-02T16:30"),
    ("Australia/Lord_Howe", "04-04T15:00 10-03T15:30", "04-03T15:00 10-02T15:30"),
    ("Pacific/Auckland Pacific/Chatham", "04-04T14:00 09-26T14:00", "04-03T14:00 09-25T14:00"),
    ("America/Santiago", "04-05T03:00 09-06T04:00", "04-04T03:00 09-05T04:00"),
    ("Africa/Casablanca", "02-15T02:00 03-22T02:00 09-20T01:00", ""),
    ("America/Vancouver", "03-08T10:00", ""),
    ("America/Edmonton America/Yellowknife America/Inuvik", "03-08T09:00", ""),
    ("America/Winnipeg America/Rainy_River", "03-08T08:00", ""),
]
UNCHANGING = {
    "America/Phoenix": "UTC−07:00",
    "Pacific/Honolulu": "UTC−10:00",
    "America/Regina": "UTC−06:00",
    "America/Mexico_City": "UTC−06:00",
    "America/Sao_Paulo": "UTC−03:00",
    "America/Asuncion": "UTC−03:00",
    "Europe/Istanbul": "UTC+03:00",
    "Europe/Moscow": "UTC+03:00",
    "Asia/Tokyo": "UTC+09:00",
    "Asia/Kolkata": "UTC+05:30",
    "Asia/Kathmandu": "UTC+05:45",
    "Asia/Shanghai": "UTC+08:00",
    "Asia/Manila": "UTC+08:00",
    "Asia/Singapore": "UTC+08:00",
    "Asia/Dubai": "UTC+04:00",
    "Africa/Johannesburg": "UTC+02:00",
    "Australia/Brisbane": "UTC+10:00",
    "Australia/Darwin": "UTC+09:30",
    "Australia/Perth": "UTC+08:00",
    "Pacific/Apia": "UTC+13:00",
}
ZONE_YEARS = [
    (zone, year, instants.split())
    for zones, *years in CHANGES
    for zone in zones.split()
    for year, instants in zip((2026, 2027), years, strict=True)
]
