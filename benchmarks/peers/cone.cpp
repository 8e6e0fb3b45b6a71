// Force and torque of a mirror cone in a Gaussian beam, in C++: the loop that one writes today when NumPy is too slow.
//
// Same craft, beam, nodes, poses and JSON as cone_numpy.py, written from the same equations:
//     dF = -2 (I mu^2 / c) n dA,  mu = -n.b > 0 on the lit side,  torque (p - r_cm) x dF about the centre of mass,
//     I = 2 P / (pi w^2) exp(-2 rho^2 / w^2),  light along beam +z.
// The craft is invented. All SI. One thread.
//
//     g++ -std=c++17 -O3 -march=native -ffast-math cone.cpp -o cone
//     ./cone cone_poses.csv [radial] [azimuth] [repetitions]
//
// One array per component and no branch in the loop, so that gcc replaces exp by libmvec's vector exp; check with
//     g++ ... -S cone.cpp -o - | grep -o '_ZGV[a-z]N[0-9]*v_exp' | sort | uniq -c
#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <vector>

namespace {

constexpr double kPi = 3.141592653589793238462643383279502884;
constexpr double kLightSpeed = 299792458.0;  // m/s, exact
constexpr double kPowerW = 300e6;
constexpr double kWaistM = 1.5;
constexpr double kConeRadiusM = 1.5;
constexpr double kConeHalfAngleRad = 65.0 * kPi / 180.0;
constexpr double kCenterOfMassZM = -3.2;
constexpr double kPeakIntensity = 2 * kPowerW / (kPi * kWaistM * kWaistM);

using Vector = std::array<double, 3>;
using Matrix = std::array<Vector, 3>;

// Positions from the centre of mass, unit normals of the lit side and areas, body axes, one array per component.
struct Nodes {
    std::vector<double> ax, ay, az, nx, ny, nz, area;
};

struct Reading {
    Vector force{}, torque{};
};

struct Pose {
    double x, y, tiltX, tiltY;
};

// Roots and weights on (-1, 1) by Newton's method on the three-term recurrence.
void gaussLegendre(int n, std::vector<double>& root, std::vector<double>& weight) {
    root.resize(n);
    weight.resize(n);
    for (int i = 0; i < n; i++) {
        double t = -std::cos(kPi * (i + 0.75) / (n + 0.5));
        double slope = 1;
        for (int iteration = 0; iteration < 100; iteration++) {
            double before = 1, value = t;
            for (int k = 2; k <= n; k++) {
                const double next = ((2 * k - 1) * t * value - (k - 1) * before) / k;
                before = value;
                value = next;
            }
            slope = n * (t * value - before) / (t * t - 1);
            const double step = value / slope;
            t -= step;
            if (std::abs(step) < 1e-15) break;
        }
        root[i] = t;
        weight[i] = 2 / ((1 - t * t) * slope * slope);
    }
}

Nodes coneNodes(int radial, int azimuth) {
    std::vector<double> root, weight;
    gaussLegendre(radial, root, weight);
    const double sine = std::sin(kConeHalfAngleRad), cosine = std::cos(kConeHalfAngleRad);
    Nodes nodes;
    for (int i = 0; i < radial; i++) {
        const double r = 0.5 * kConeRadiusM * (1 + root[i]);
        const double ring = 0.5 * kConeRadiusM * weight[i] * r / sine * 2 * kPi / azimuth;
        for (int j = 0; j < azimuth; j++) {
            const double phi = 2 * kPi * j / azimuth;
            nodes.ax.push_back(r * std::cos(phi));
            nodes.ay.push_back(r * std::sin(phi));
            nodes.az.push_back(-r * cosine / sine - kCenterOfMassZM);
            nodes.nx.push_back(-cosine * std::cos(phi));
            nodes.ny.push_back(-cosine * std::sin(phi));
            nodes.nz.push_back(-sine);
            nodes.area.push_back(ring);
        }
    }
    return nodes;
}

// Rotation matrix (beam from body) of the rotation vector (tiltX, tiltY, 0), rad.
Matrix rotation(double tiltX, double tiltY) {
    const double angle = std::hypot(tiltX, tiltY);
    const double a = angle > 0 ? std::sin(angle) / angle : 1;
    const double h = angle > 0 ? std::sin(0.5 * angle) / angle : 0.5;
    const double b = 2 * h * h;
    return {{{1 - b * tiltY * tiltY, b * tiltX * tiltY, a * tiltY},
             {b * tiltX * tiltY, 1 - b * tiltX * tiltX, -a * tiltX},
             {-a * tiltY, a * tiltX, 1 - b * (tiltX * tiltX + tiltY * tiltY)}}};
}

__attribute__((noinline)) Reading forceAndTorque(const Nodes& nodes, double x, double y, const Matrix& r) {
    const double* __restrict__ bx = nodes.ax.data();
    const double* __restrict__ by = nodes.ay.data();
    const double* __restrict__ bz = nodes.az.data();
    const double* __restrict__ mx = nodes.nx.data();
    const double* __restrict__ my = nodes.ny.data();
    const double* __restrict__ mz = nodes.nz.data();
    const double* __restrict__ area = nodes.area.data();
    const int count = static_cast<int>(nodes.area.size());
    double fx = 0, fy = 0, fz = 0, tx = 0, ty = 0, tz = 0;
    for (int i = 0; i < count; i++) {
        const double ax = r[0][0] * bx[i] + r[0][1] * by[i] + r[0][2] * bz[i];
        const double ay = r[1][0] * bx[i] + r[1][1] * by[i] + r[1][2] * bz[i];
        const double az = r[2][0] * bx[i] + r[2][1] * by[i] + r[2][2] * bz[i];
        const double nx = r[0][0] * mx[i] + r[0][1] * my[i] + r[0][2] * mz[i];
        const double ny = r[1][0] * mx[i] + r[1][1] * my[i] + r[1][2] * mz[i];
        const double nz = r[2][0] * mx[i] + r[2][1] * my[i] + r[2][2] * mz[i];
        const double mu = nz < 0 ? -nz : 0.0;
        const double px = ax + x, py = ay + y;
        const double intensity = kPeakIntensity * std::exp(-2 / (kWaistM * kWaistM) * (px * px + py * py));
        const double push = -2 / kLightSpeed * intensity * mu * mu * area[i];
        const double gx = push * nx, gy = push * ny, gz = push * nz;
        fx += gx;
        fy += gy;
        fz += gz;
        tx += ay * gz - az * gy;
        ty += az * gx - ax * gz;
        tz += ax * gy - ay * gx;
    }
    return {{fx, fy, fz}, {tx, ty, tz}};
}

std::vector<Pose> readPoses(const char* path) {
    std::ifstream file(path);
    std::string line;
    std::getline(file, line);  // names of the columns
    std::vector<Pose> poses;
    while (std::getline(file, line)) {
        Pose p{};
        if (std::sscanf(line.c_str(), "%lf,%lf,%lf,%lf", &p.x, &p.y, &p.tiltX, &p.tiltY) == 4) poses.push_back(p);
    }
    if (poses.empty()) {
        std::fprintf(stderr, "%s: no poses; expected lines of x_m,y_m,tilt_x_rad,tilt_y_rad\n", path);
        std::exit(2);
    }
    return poses;
}

std::string processorName() {
    std::ifstream file("/proc/cpuinfo");
    std::string line;
    while (std::getline(file, line)) {
        if (line.rfind("model name", 0) == 0) return line.substr(line.find(':') + 2);
    }
    return "unknown";
}

// Seconds per call of every repetition; one repetition is one pass over all poses.
std::vector<double> timeCalls(const Nodes& nodes, const std::vector<Pose>& poses, int repetitions) {
    std::vector<Matrix> turns;
    for (const Pose& p : poses) turns.push_back(rotation(p.tiltX, p.tiltY));
    std::vector<double> seconds;
    volatile double sink = 0;
    for (int i = -50; i < repetitions; i++) {
        const auto start = std::chrono::steady_clock::now();
        for (size_t k = 0; k < poses.size(); k++) {
            sink = sink + forceAndTorque(nodes, poses[k].x, poses[k].y, turns[k]).force[2];
        }
        const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
        if (i >= 0) seconds.push_back(spent.count() / static_cast<double>(poses.size()));
    }
    std::sort(seconds.begin(), seconds.end());
    return seconds;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "usage: cone cone_poses.csv [radial 64] [azimuth 128] [repetitions 4000]\n");
        return 2;
    }
    const int radial = argc > 2 ? std::atoi(argv[2]) : 64;
    const int azimuth = argc > 3 ? std::atoi(argv[3]) : 128;
    const int repetitions = argc > 4 ? std::atoi(argv[4]) : 4000;
    if (radial < 1 || azimuth < 1 || repetitions < 1) {
        std::fprintf(stderr, "radial, azimuth and repetitions are whole numbers of at least 1\n");
        return 2;
    }
    const std::vector<Pose> poses = readPoses(argv[1]);
    const Nodes nodes = coneNodes(radial, azimuth);
    const std::vector<double> seconds = timeCalls(nodes, poses, repetitions);
    const double count = static_cast<double>(nodes.area.size()), median = seconds[seconds.size() / 2];
    std::printf("{\n \"peer\": \"cone.cpp\",\n \"processor\": \"%s\",\n \"nodes\": %.0f,\n \"repetitions\": %d,\n",
                processorName().c_str(), count, repetitions);
    std::printf(" \"calls_per_s\": %.6g,\n \"ns_per_node_min\": %.6g,\n \"ns_per_node_median\": %.6g,\n", 1 / median,
                seconds[0] / count * 1e9, median / count * 1e9);
    std::printf(" \"states\": [\n");
    for (size_t i = 0; i < poses.size(); i++) {
        const Pose& p = poses[i];
        const Reading a = forceAndTorque(nodes, p.x, p.y, rotation(p.tiltX, p.tiltY));
        std::printf("  {\"pose\": [%.17g, %.17g, %.17g, %.17g], ", p.x, p.y, p.tiltX, p.tiltY);
        std::printf("\"force_N\": [%.17g, %.17g, %.17g], ", a.force[0], a.force[1], a.force[2]);
        std::printf("\"torque_Nm\": [%.17g, %.17g, %.17g]}%s\n", a.torque[0], a.torque[1], a.torque[2],
                    i + 1 < poses.size() ? "," : "");
    }
    std::printf(" ]\n}\n");
    return 0;
}
