/*
 * The frames of frames.csv: numbers as the rows' inputs give them, units multiplied out.
 */
#include "book_frames.h"

#include <stddef.h>

/* Exact by definition: inch 25.4 mm, pound force 0.45359237 kg times 9.80665 m/s^2. */
#define IN 0.0254
#define FT (12.0 * IN)
#define LB (0.45359237 * 9.80665)
#define KIP (1000.0 * LB)
#define PSI (LB / (IN * IN))
#define KSI (1000.0 * PSI)
#define IN2 (IN * IN)
#define IN4 (IN * IN * IN * IN)
#define MM 1e-3
#define MM2 1e-6
#define MM4 1e-12
#define MPA 1e6
#define GPA 1e9
#define KN 1e3

/* 5 kN at 45 degrees. */
#define SLANTED (5.0 * KN * 0.70710678118654752440)

/* Plane frames do not feel these two: any values do. */
#define ANY_G (0.4 * 30e6 * PSI)
#define ANY_J IN4

#define NONE                                                                                       \
    {                                                                                              \
        0.0                                                                                        \
    }

/* Square tube 25 x 25 x 2 by the formulas of EN 10219-2, with or without the give of shear. */
#define TUBE_25(kappa)                                                                             \
    {                                                                                              \
        210000.0 * MPA, 81000.0 * MPA, 173.6991 * MM2, 14834.923 * MM4, 25261.266 * MM4,           \
            (kappa)*173.6991 * MM2                                                                 \
    }

#define RACK_JOINTS                                                                                \
    {                                                                                              \
        {"1", {0.0, 0.0, 0.0}, BOOK_FIXED, NONE},                                                  \
            {"2", {400.0 * MM, 0.0, 0.0}, 0, {0.0, -300.0, 0.0}},                                  \
            {"3", {0.0, 0.0, 250.0 * MM}, BOOK_FIXED, NONE},                                       \
            {"4", {400.0 * MM, 0.0, 250.0 * MM}, 0, {0.0, -300.0, 60.0}},                          \
            {"5", {150.0 * MM, -200.0 * MM, 0.0}, BOOK_PINNED, NONE},                              \
            {"6", {150.0 * MM, -200.0 * MM, 250.0 * MM}, BOOK_PINNED, NONE},                       \
    }

#define RACK_MEMBERS                                                                               \
    {                                                                                              \
        {"1", "2", 0, NONE, NONE}, {"3", "4", 0, NONE, NONE}, {"2", "4", 0, NONE, NONE},           \
            {"1", "3", 0, NONE, NONE}, {"5", "2", 0, NONE, NONE}, {"6", "4", 0, NONE, NONE},       \
    }

/* clang-format off */
const book_frame book_frames[] = {
    {"P1 ", "", 1, 0,
     {{"1", {0.0, 0.0}, BOOK_FIXED, NONE},
      {"2", {0.0, 120.0 * IN}, 0, {10000.0 * LB}},
      {"3", {120.0 * IN, 120.0 * IN}, 0, {0.0, 0.0, 0.0, 0.0, 0.0, 5000.0 * LB * IN}},
      {"4", {120.0 * IN, 0.0}, BOOK_FIXED, NONE}},
     {{"1", "2", 0, NONE, NONE}, {"2", "3", 1, NONE, NONE}, {"3", "4", 0, NONE, NONE}},
     {{30e6 * PSI, ANY_G, 10.0 * IN2, 200.0 * IN4, ANY_J, 0.0},
      {30e6 * PSI, ANY_G, 10.0 * IN2, 100.0 * IN4, ANY_J, 0.0}}},
    {"P2 ", "", 1, 0,
     {{"1", {0.0, 0.0}, BOOK_FIXED, NONE},
      {"2", {30.0 * FT, 30.0 * FT}, 0, NONE},
      {"3", {70.0 * FT, 30.0 * FT}, BOOK_FIXED, NONE}},
     {{"1", "2", 0, NONE, NONE}, {"2", "3", 0, NONE, {0.0, -1000.0 * LB / FT}}},
     {{30e6 * PSI, ANY_G, 100.0 * IN2, 1000.0 * IN4, ANY_J, 0.0}}},
    {"P3 ", "", 1, 0,
     {{"1", {0.0, 20.0 * FT}, BOOK_Y, NONE},
      {"2", {20.0 * FT, 20.0 * FT}, 0, {5.0 * KIP}},
      {"3", {20.0 * FT, 0.0}, BOOK_FIXED, NONE}},
     {{"1", "2", 0, NONE, NONE}, {"2", "3", 0, NONE, NONE}},
     {{29000.0 * KSI, ANY_G, 10.0 * IN2, 500.0 * IN4, ANY_J, 0.0}}},
    {"P5 ", "", 1, 0,
     {{"1", {0.0, 0.0}, BOOK_FIXED, NONE},
      {"2", {10.0 * FT, 20.0 * FT}, 0, {0.0, 0.0, 0.0, 0.0, 0.0, -1500.0 * KIP * IN}},
      {"3", {30.0 * FT, 20.0 * FT}, BOOK_FIXED, NONE}},
     {{"1", "2", 0, {0.0, -90.0 * KIP}, NONE}, {"2", "3", 0, NONE, {0.0, -1.5 * KIP / FT}}},
     {{29000.0 * KSI, ANY_G, 11.8 * IN2, 310.0 * IN4, ANY_J, 0.0}}},
    {"P6 ", "", 1, 0,
     {{"B", {0.0, 75.0 * IN}, BOOK_FIXED, NONE},
      {"A", {100.0 * IN, 75.0 * IN}, 0, {0.0, -10.0 * KIP, 0.0, 0.0, 0.0, -1000.0 * KIP * IN}},
      {"C", {200.0 * IN, 0.0}, BOOK_FIXED, NONE}},
     {{"B", "A", 0, NONE, {0.0, -0.24 * KIP / IN}}, {"A", "C", 0, {0.0, -20.0 * KIP}, NONE}},
     {{10000.0 * KSI, ANY_G, 10.0 * IN2, 1000.0 * IN4, ANY_J, 0.0}}},
    {"P7 ", "", 1, 0,
     {{"a", {0.0, 0.0}, BOOK_FIXED, NONE},
      {"b", {8.0, 0.0}, BOOK_Y, NONE},
      {"c", {13.0, 0.0}, 0, {SLANTED, -SLANTED}}},
     {{"a", "b", 0, NONE, NONE}, {"b", "c", 1, NONE, NONE}},
     {{200.0 * GPA, ANY_G, 6000.0 * MM2, 200e6 * MM4, ANY_J, 0.0},
      {200.0 * GPA, ANY_G, 4000.0 * MM2, 50e6 * MM4, ANY_J, 0.0}}},
    /* The bars' bending and twisting stiffness keep joint 1 from spinning and carry nothing: with
       pinned ends no turn of a joint bends a bar, and nothing twists one. */
    {"T1 ", "", 0, 1,
     {{"1", {72.0 * IN, 0.0, 0.0}, BOOK_Y, {0.0, 0.0, -1000.0 * LB}},
      {"2", {0.0, 36.0 * IN, 0.0}, BOOK_FIXED, NONE},
      {"3", {0.0, 36.0 * IN, 72.0 * IN}, BOOK_FIXED, NONE},
      {"4", {0.0, 0.0, -48.0 * IN}, BOOK_FIXED, NONE}},
     {{"1", "2", 0, NONE, NONE}, {"1", "3", 1, NONE, NONE}, {"1", "4", 2, NONE, NONE}},
     {{1.2e6 * PSI, 0.4 * 1.2e6 * PSI, 0.302 * IN2, 0.01 * IN4, 0.01 * IN4, 0.0},
      {1.2e6 * PSI, 0.4 * 1.2e6 * PSI, 0.729 * IN2, 0.01 * IN4, 0.01 * IN4, 0.0},
      {1.2e6 * PSI, 0.4 * 1.2e6 * PSI, 0.187 * IN2, 0.01 * IN4, 0.01 * IN4, 0.0}}},
    {"S1 ", "", 0, 0,
     {{"1", {0.0, 0.0, 0.0}, 0, {0.0, -50.0 * KIP, 0.0, -1000.0 * KIP * IN}},
      {"2", {-100.0 * IN, 0.0, 0.0}, BOOK_FIXED, NONE},
      {"3", {0.0, 0.0, -100.0 * IN}, BOOK_FIXED, NONE},
      {"4", {0.0, -100.0 * IN, 0.0}, BOOK_FIXED, NONE}},
     {{"2", "1", 0, NONE, NONE}, {"3", "1", 0, NONE, NONE}, {"4", "1", 0, NONE, NONE}},
     {{30000.0 * KSI, 10000.0 * KSI, 10.0 * IN2, 100.0 * IN4, 50.0 * IN4, 0.0}}},
    {"S3 ", "", 0, 0,
     {{"1", {0.0, 3.0, 0.0}, 0, {120.0 * KN}},
      {"2", {6.0, 3.0, 0.0}, 0, {0.0, -60.0 * KN, 0.0, 0.0, 0.0, -180.0 * KN}},
      {"3", {0.0, 0.0, 0.0}, BOOK_FIXED, NONE},
      {"4", {9.0, 0.0, 3.0}, BOOK_FIXED, NONE}},
     {{"1", "2", 0, {0.0, 0.0, 240.0 * KN}, NONE},
      {"3", "1", 0, NONE, NONE},
      {"2", "4", 0, NONE, NONE}},
     {{200.0 * GPA, 80.0 * GPA, 0.01, 0.001, 0.002, 0.0}}},
    {"S4 ", "Euler-Bernoulli", 0, 0, RACK_JOINTS, RACK_MEMBERS, {TUBE_25(0.0)}},
    {"S4 ", "Timoshenko kappa=0.436", 0, 0, RACK_JOINTS, RACK_MEMBERS, {TUBE_25(0.436)}},
    {NULL, NULL, 0, 0, {{NULL, NONE, 0, NONE}}, {{NULL, NULL, 0, NONE, NONE}}, {{0.0, 0.0, 0.0, 0.0, 0.0, 0.0}}},
};
/* clang-format on */
