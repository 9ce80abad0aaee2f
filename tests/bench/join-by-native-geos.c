/*
 * The join of join-by-geos.ts by the GEOS of the system. Reads doubles: trees, buildings, meters, x and y of every tree, and of every building its count of
 * corners with x and y of each. Shapes are made before the clock starts. Prints for every run: user, system and wall milliseconds and the sum in meters.
 * Declared by hand, so that the library alone is needed and not its headers (GEOS C API, geos_c.h).
 */
#include <float.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>

typedef struct Geometry Geometry;
typedef struct Coordinates Coordinates;
typedef struct Tree Tree;
extern void initGEOS(void (*notice)(const char *, ...), void (*error)(const char *, ...));
extern Coordinates *GEOSCoordSeq_create(unsigned size, unsigned dimensions);
extern int GEOSCoordSeq_setX(Coordinates *, unsigned at, double value);
extern int GEOSCoordSeq_setY(Coordinates *, unsigned at, double value);
extern Geometry *GEOSGeom_createPoint(Coordinates *);
extern Geometry *GEOSGeom_createLinearRing(Coordinates *);
extern Geometry *GEOSGeom_createPolygon(Geometry *shell, Geometry **holes, unsigned holeCount);
extern int GEOSDistance(const Geometry *, const Geometry *, double *distance);
extern Tree *GEOSSTRtree_create(size_t capacity);
extern void GEOSSTRtree_insert(Tree *, const Geometry *, void *item);
extern void GEOSSTRtree_query(Tree *, const Geometry *, void (*visit)(void *item, void *data), void *data);
extern void GEOSSTRtree_destroy(Tree *);

typedef struct {
  const Geometry *point;
  double nearest;
} Search;

static double next(FILE *file) {
  double value;
  if (fread(&value, sizeof value, 1, file) != 1) exit(2);
  return value;
}

static Coordinates *positions(const double *xy, unsigned count) {
  Coordinates *made = GEOSCoordSeq_create(count, 2);
  for (unsigned at = 0; at < count; at += 1) {
    GEOSCoordSeq_setX(made, at, xy[2 * at]);
    GEOSCoordSeq_setY(made, at, xy[2 * at + 1]);
  }
  return made;
}

static Geometry *area(const double *xy, unsigned count) {
  return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(positions(xy, count)), NULL, 0);
}

static void look(void *item, void *data) {
  Search *search = data;
  double distance;
  GEOSDistance(item, search->point, &distance);
  if (distance < search->nearest) search->nearest = distance;
}

static double milliseconds(struct timeval time) { return time.tv_sec * 1e3 + time.tv_usec / 1e3; }

int main(int count, char **values) {
  FILE *file = count == 3 ? fopen(values[1], "rb") : NULL;
  if (file == NULL) return 2;
  initGEOS(NULL, NULL);
  size_t trees = next(file), buildings = next(file);
  double reach = next(file);
  Geometry **points = malloc(trees * sizeof *points), **boxes = malloc(trees * sizeof *boxes);
  Geometry **areas = malloc(buildings * sizeof *areas);
  for (size_t at = 0; at < trees; at += 1) {
    double x = next(file), y = next(file);
    double west = x - reach, south = y - reach, east = x + reach, north = y + reach;
    points[at] = GEOSGeom_createPoint(positions((double[]){x, y}, 1));
    boxes[at] = area((double[]){west, south, east, south, east, north, west, north, west, south}, 5);
  }
  for (size_t at = 0; at < buildings; at += 1) {
    unsigned corners = next(file);
    double *xy = malloc(2 * corners * sizeof *xy);
    for (unsigned value = 0; value < 2 * corners; value += 1) xy[value] = next(file);
    areas[at] = area(xy, corners);
    free(xy);
  }
  for (int run = atoi(values[2]); run > 0; run -= 1) {
    struct rusage before, after;
    struct timespec start, end;
    getrusage(RUSAGE_SELF, &before);
    clock_gettime(CLOCK_MONOTONIC, &start);
    Tree *tree = GEOSSTRtree_create(10);
    for (size_t at = 0; at < buildings; at += 1) GEOSSTRtree_insert(tree, areas[at], areas[at]);
    double sum = 0;
    for (size_t at = 0; at < trees; at += 1) {
      Search search = {points[at], DBL_MAX};
      GEOSSTRtree_query(tree, boxes[at], look, &search);
      if (search.nearest <= reach) sum += search.nearest;
    }
    GEOSSTRtree_destroy(tree);
    clock_gettime(CLOCK_MONOTONIC, &end);
    getrusage(RUSAGE_SELF, &after);
    printf("%.3f %.3f %.3f %.17g\n", milliseconds(after.ru_utime) - milliseconds(before.ru_utime),
           milliseconds(after.ru_stime) - milliseconds(before.ru_stime),
           (end.tv_sec - start.tv_sec) * 1e3 + (end.tv_nsec - start.tv_nsec) / 1e6, sum);
  }
  return 0;
}
