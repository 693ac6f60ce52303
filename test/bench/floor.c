/* The floor of the speed table: the inner step of a ride as a plain C loop, one linearly implicit step to a 10 m station, with density of the air by
   height, wind as a vector, rider, motor, speed limit and a pack behind a resistance; 20,000 stations, repeated 300 times. The bench compiles and
   runs it where there is a C compiler, so that the ratios are those of one run on one machine. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#define N 20000
#define REP 300
/* plain comparisons: fmin and fmax become library calls without -ffast-math */
static inline double lo(double a, double b) { return a < b ? a : b; }
static inline double hi(double a, double b) { return a > b ? a : b; }
static double z[N + 1], cx[N], cy[N], gs[N], gc[N], dl[N], vmax2[N + 1];       /* road, made once */
static double vout[N + 1], tout[N + 1], qout[N + 1];                           /* what the views read */
static double rhoT[512];                                                       /* density, every 10 m of elevation */
static double ocvT[257], rT[257];                                              /* pack voltage and resistance by charge */
static const double SOC[25] = {0,1,2,5,10,15,20,25,30,35,40,45,50,55,60,65,70,75,80,85,90,95,98,99,100};
static const double OCV[25] = {2.557,2.855,2.983,3.179,3.336,3.423,3.479,3.533,3.583,3.620,3.652,3.689,3.733,
                               3.781,3.835,3.884,3.922,3.969,4.025,4.068,4.085,4.108,4.143,4.163,4.194};
static double now(void) { struct timespec t; clock_gettime(CLOCK_MONOTONIC, &t); return t.tv_sec + 1e-9 * t.tv_nsec; }

int main(void) {
  const double PI = 3.14159265358979323846, ds = 10;
  const double m = 122, meff = 125, g = 9.806, cda = 0.6044, crr = 0.008, eta = 0.95;
  for (int i = 0; i <= N; i++) z[i] = 300 + 60 * sin(i * 2 * PI / 700) + 4 * sin(i * 2 * PI / 90) + 0.2 * sin(i * 2 * PI / 17);
  for (int i = 0; i < N; i++) {
    double G = (z[i + 1] - z[i]) / ds, h = 2 * PI * i / N + 0.8 * sin(i * 2 * PI / 130), s = sqrt(1 + G * G);
    gs[i] = G / s; gc[i] = 1 / s; dl[i] = ds * s; cx[i] = sin(h); cy[i] = cos(h);
  }
  for (int i = 0; i <= N; i++) { double k = 0.02 * pow(fabs(sin(i * 2 * PI / 210)), 5), c = 11.1111; vmax2[i] = lo(c * c, 2.2 / (k + 1e-9)); }
  for (int i = N - 1; i >= 0; i--) vmax2[i] = lo(vmax2[i], vmax2[i + 1] + 2 * 1.5 * dl[i]);
  for (int i = 0; i < 512; i++) {
    double H = -500 + 10.0 * i, T = 288.15 - 0.0065 * H, p = 101325 * pow(T / 288.15, 5.255876), tC = 20,
           e = 0.6 * 611.2 * exp(17.62 * tC / (243.12 + tC));
    rhoT[i] = (p - e) / (287.05287 * (tC + 273.15)) + e / (461.495 * (tC + 273.15));
  }
  const double ah = 4 * 17.3611;                 /* four packs as one, so that the motor helps all the way */
  for (int i = 0; i <= 256; i++) {
    double x = 100.0 * i / 256; int j = 0; while (j < 23 && SOC[j + 1] <= x) j++;
    ocvT[i] = 10 * (OCV[j] + (OCV[j + 1] - OCV[j]) * (x - SOC[j]) / (SOC[j + 1] - SOC[j]));
    rT[i] = 10 * 0.13 / ah * 1.08 * (x < 15 ? 1.5 : 1) + 0.0075;
  }
  const double vw = 1.25, v2walk = vw * vw, c0 = 30 / 3.6, c1 = 32 / 3.6, a0 = 23 / 3.6, a1 = 25 / 3.6;
  double sumT = 0, sumQ = 0, best = 1e9, t0 = now();
  for (int rep = 0; rep < REP; rep++) {
    double r0 = now();
    const double base = 90 + 1e-3 * rep, ratio = 1, peak = 450, W = 2.0, wd = 0.003 * rep;      /* a dragged pin: inputs move */
    const double wx = W * sin(wd), wy = W * cos(wd);
    double v = vw, t = 0, soc = 1, fade = 0;
    vout[0] = v; tout[0] = 0; qout[0] = soc;
    for (int i = 0; i < N; i++) {
      double zi = (z[i] + 500) * 0.1; int j = (int)zi; double rho = rhoT[j] + (zi - j) * (rhoT[j + 1] - rhoT[j]);
      double along = v + wx * cx[i] + wy * cy[i], cross = wx * cy[i] - wy * cx[i];
      double va = sqrt(along * along + cross * cross), k = 0.5 * rho * cda;
      double air = k * va * along, dair = k * (va + along * along / hi(va, 1e-6));
      double rest = crr * m * g * gc[i] + m * g * gs[i] + 0.091 + 0.0087 * v;
      double G = gs[i] / gc[i], cl = lo(1, hi(0, (G - 0.01) * 25));
      double nominal = base * (1 + 0.55555556 * cl), pr = nominal * hi(0.5, 1 - fade) * lo(1, hi(0, (c1 - v) / (c1 - c0)));
      double pm = lo(ratio * pr, peak) * lo(1, hi(0, (a1 - v) / (a1 - a0)));
      if (soc < 0.10) pm = 0;
      double pw = eta * (pr + pm), fd = lo(pw / v, air + rest + meff * 0.6);
      /* slope of the net force against v, for the linearly implicit step in kinetic energy */
      double dfd = -fd / v, dF = (dfd - dair - 0.0087) / (meff * v);
      if (v > a0 && v < a1) dF -= eta * lo(ratio * pr, peak) / (a1 - a0) / v / (meff * v);
      double E = 0.5 * meff * v * v, E1 = E + dl[i] * (fd - air - rest) / (1 - lo(0, dF) * dl[i]);
      double v2 = 2 * E1 / meff; v2 = v2 > vmax2[i + 1] ? vmax2[i + 1] : v2; v2 = v2 < v2walk ? v2walk : v2;
      double v1 = sqrt(v2), dt = 2 * dl[i] / (v + v1);
      t += dt;
      if (t > 4800) fade += dt * 0.045 / 3600 * (nominal >= 108 ? 1 : 0.5);
      double pe = 5 + (pm > 0 ? pm + 12 + 0.10 * pm + 0.0002 * pm * pm : 0);
      double q = soc * 256; int b = (int)q; if (b > 255) b = 255;
      double voc = ocvT[b] + (q - b) * (ocvT[b + 1] - ocvT[b]), r = rT[b];
      double cur = 2 * pe / (voc + sqrt(voc * voc - 4 * r * pe));
      soc -= cur * dt / (3600 * ah); if (soc < 0) soc = 0;
      v = v1;
      vout[i + 1] = v; tout[i + 1] = t; qout[i + 1] = soc;
    }
    sumT += t; sumQ += soc;
    if (rep == 0) printf("first repetition: time %.2f s, charge %.6f, fade %.5f\n", t, soc, fade);
    double r1 = now() - r0; if (r1 < best) best = r1;
  }
  double el = now() - t0;
  printf("mean %.2f ns per station, best repetition %.2f ns (%.3f ms per %d stations); mean time %.1f s, mean charge %.5f\n",
         el / N / REP * 1e9, best / N * 1e9, best * 1e3, N, sumT / REP, sumQ / REP);
  return 0;
}
