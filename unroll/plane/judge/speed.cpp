// Does with GEOS what the benchmarks of bench_test.go do, all or the named one, and
// prints the least time of each in nanoseconds: "NAME NS". The tasks come from a file that
// TestWriteTasksForSpeed writes. Exits nonzero if a result is not ours to within
// what chords take off arcs (2 %: 90 chords of a disc of 40 mm lie up to 0.024 mm
// inside it, and what is clipped is some 3 mm wide): then the two did not do the same.
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <functional>
#include <iostream>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#define USE_UNSTABLE_GEOS_CPP_API  // the C one has no nearest pair
#include <geos/geom/Coordinate.h>
#include <geos/geom/CoordinateArraySequence.h>
#include <geos/geom/GeometryFactory.h>
#include <geos/geom/LinearRing.h>
#include <geos/geom/LineString.h>
#include <geos/geom/MultiPolygon.h>
#include <geos/geom/Polygon.h>
#include <geos/index/strtree/TemplateSTRtree.h>
#include <geos/operation/buffer/BufferOp.h>
#include <geos/operation/buffer/BufferParameters.h>
#include <geos/operation/distance/IndexedFacetDistance.h>
#include <geos/operation/union/CascadedPolygonUnion.h>

using namespace geos::geom;
using geos::index::strtree::TemplateSTRtree;
using geos::operation::distance::IndexedFacetDistance;
typedef std::unique_ptr<Geometry> Shape;
typedef std::vector<Shape> Shapes;
typedef TemplateSTRtree<const Geometry*> Tree;

static const GeometryFactory* factory = GeometryFactory::getDefaultInstance();

static Shape polygon(std::istream& in) {
  size_t n;
  in >> n;
  auto points = std::make_unique<CoordinateArraySequence>(n + 1, 2);
  Coordinate first;
  for (size_t i = 0; i < n; i++) {
    double x, y;
    in >> x >> y;
    if (i == 0) first = Coordinate(x, y);
    points->setAt(Coordinate(x, y), i);
  }
  points->setAt(first, n);
  return factory->createPolygon(factory->createLinearRing(std::move(points)));
}

// The least of several runs, after a first one that is not counted.
static double best(const std::function<double()>& f, double& result) {
  result = f();
  double least = 1e300, all = 0;
  for (int i = 0; i < 3 || (all < 2e8 && i < 20000); i++) {
    auto t = std::chrono::steady_clock::now();
    f();
    double ns = std::chrono::duration<double, std::nano>(std::chrono::steady_clock::now() - t).count();
    least = std::min(least, ns);
    all += ns;
  }
  return least;
}

// Rings, not polygons: what is asked is the way between edges.
static Shapes rings(const Shapes& polygons) {
  Shapes r;
  for (auto& p : polygons) r.push_back(static_cast<const Polygon*>(p.get())->getExteriorRing()->clone());
  return r;
}

struct Plain {
  double operator()(const Geometry* a, const Geometry* b) {
    return a == b ? 1e300 : a->distance(b);
  }
};

// Keeps an index of the edges of each shape that is asked about.
struct Indexed {
  std::unordered_map<const Geometry*, std::unique_ptr<IndexedFacetDistance>> kept;
  double operator()(const Geometry* a, const Geometry* b) {
    if (a == b) return 1e300;
    auto& d = kept[a];
    if (!d) d.reset(new IndexedFacetDistance(a));
    return d->distance(b);
  }
};

template <class Distance>
static double nearest(const Shapes& shapes) {
  Tree tree;
  for (auto& s : shapes) tree.insert(s->getEnvelopeInternal(), s.get());
  tree.query(*shapes[0]->getEnvelopeInternal(), [](const Geometry*) {});  // builds it
  Distance d;
  auto p = tree.nearestNeighbour(d);
  return p.first->distance(p.second);
}

template <class Distance>
static double bridges(const Shapes& shapes, double limit) {
  Tree tree;
  for (auto& s : shapes) tree.insert(s->getEnvelopeInternal(), s.get());
  Distance d;
  size_t n = 0;
  for (auto& s : shapes) {
    Envelope e = *s->getEnvelopeInternal();
    e.expandBy(limit);
    tree.query(e, [&](const Geometry* o) {
      if (s.get() < o && d(s.get(), o) < limit) n++;
    });
  }
  return n;
}

int main(int argc, char** argv) {
  if (argc != 2 && argc != 3) {
    std::cerr << "usage: speed TASKS [NAME]\n";
    return 2;
  }
  std::ifstream in(argv[1]);
  std::string word, name, kind;
  bool same = true;
  while (in >> word && word == "task") {
    double by, want, got = NAN, ns;
    size_t n;
    in >> name >> kind >> by >> want >> n;
    Shapes shapes;
    for (size_t i = 0; i < n; i++) shapes.push_back(polygon(in));
    in >> word >> n;
    Shape other = n ? polygon(in) : nullptr;
    if (argc == 3 && name != argv[2]) continue;
    if (kind == "inset") {
      ns = best([&] {
        double a = 0;
        for (auto& s : shapes) a += s->buffer(-by)->getArea();
        return a;
      }, got);
    } else if (kind == "clip") {
      ns = best([&] {
        double a = 0;
        for (auto& s : shapes) a += s->intersection(other.get())->getArea();
        return a;
      }, got);
    } else if (kind == "pierce") {
      Shapes copies;
      for (auto& s : shapes) copies.push_back(s->clone());
      Shape all = factory->createMultiPolygon(std::move(copies));
      ns = best([&] { return other->difference(all.get())->getArea(); }, got);
    } else {
      // Two ways to measure; the faster one counts.
      Shapes r = rings(shapes);
      bool pair = kind == "nearest";
      ns = best([&] { return pair ? nearest<Plain>(r) : bridges<Plain>(r, by); }, got);
      ns = std::min(ns, best([&] { return pair ? nearest<Indexed>(r) : bridges<Indexed>(r, by); }, got));
    }
    std::printf("%s %.0f\n", name.c_str(), ns);
    if (!(std::fabs(got - want) <= 2e-2 * std::fabs(want))) {
      std::fprintf(stderr, "%s: GEOS has %.9g, we %.9g\n", name.c_str(), got, want);
      same = false;
    }
  }
  return same ? 0 : 1;
}
