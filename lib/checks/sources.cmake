set(sources
  check_droop.c check_mount.c check_sag.c check_yield.c checks.c limits.c omissions.c
  place.c sentence.c stress.c stress_rim.c working.c working_yield.c)
