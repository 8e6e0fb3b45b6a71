namespace Lightkeel.Numerics.Tests.Optimisation;

/// <summary>Published test problems.</summary>
internal static class Problems
{
    // Evol. Comput. 8, 173 (2000), DOI 10.1162/106365600568202.
    public static double[] Zdt1(double[] x)
    {
        double g = 1 + 9 * x.Skip(1).Average();
        return [x[0], g * (1 - Math.Sqrt(x[0] / g))];
    }

    public static double[] Zdt2(double[] x)
    {
        double g = 1 + 9 * x.Skip(1).Average();
        return [x[0], g * (1 - x[0] / g * (x[0] / g))];
    }

    public static double[] Zdt3(double[] x)
    {
        double g = 1 + 9 * x.Skip(1).Average();
        return [x[0], g * (1 - Math.Sqrt(x[0] / g) - x[0] / g * Math.Sin(10 * Math.PI * x[0]))];
    }

    // First variable in [0, 1], the others in [-5, 5].
    public static double[] Zdt4(double[] x)
    {
        double g = 1 + 10 * (x.Length - 1) + x.Skip(1).Sum(v => v * v - 10 * Math.Cos(4 * Math.PI * v));
        return [x[0], g * (1 - Math.Sqrt(x[0] / g))];
    }

    public static double[] Zdt6(double[] x)
    {
        double f = 1 - Math.Exp(-4 * x[0]) * Math.Pow(Math.Sin(6 * Math.PI * x[0]), 6);
        double g = 1 + 9 * Math.Pow(x.Skip(1).Average(), 0.25);
        return [f, g * (1 - f / g * (f / g))];
    }

    // Scalable test problems for evolutionary multiobjective optimization, Springer (2005), chapter 6: DTLZ1 and DTLZ2.
    public static double[] Dtlz1(double[] x, int aims)
    {
        double[] tail = [.. x.Skip(aims - 1)];
        double g = 100 * (tail.Length + tail.Sum(v => (v - 0.5) * (v - 0.5) - Math.Cos(20 * Math.PI * (v - 0.5))));
        double[] f = new double[aims];
        for (int k = 0; k < aims; k++)
        {
            f[k] = 0.5 * (1 + g);
            for (int i = 0; i < aims - 1 - k; i++)
            {
                f[k] *= x[i];
            }
            f[k] *= k > 0 ? 1 - x[aims - 1 - k] : 1;
        }
        return f;
    }

    public static double[] Dtlz2(double[] x, int aims)
    {
        double g = x.Skip(aims - 1).Sum(v => (v - 0.5) * (v - 0.5));
        double[] f = new double[aims];
        for (int k = 0; k < aims; k++)
        {
            f[k] = 1 + g;
            for (int i = 0; i < aims - 1 - k; i++)
            {
                f[k] *= Math.Cos(0.5 * Math.PI * x[i]);
            }
            f[k] *= k > 0 ? Math.Sin(0.5 * Math.PI * x[aims - 1 - k]) : 1;
        }
        return f;
    }

    public static double Sphere(double[] x) => x.Sum(v => v * v);

    public static double Rosenbrock(double[] x)
    {
        double sum = 0;
        for (int i = 0; i + 1 < x.Length; i++)
        {
            double a = x[i + 1] - x[i] * x[i];
            sum += 100 * a * a + (1 - x[i]) * (1 - x[i]);
        }
        return sum;
    }

    public static double Rastrigin(double[] x) => 10 * x.Length + x.Sum(v => v * v - 10 * Math.Cos(2 * Math.PI * v));

    // ACM Trans. Math. Softw. 7, 17 (1981), DOI 10.1145/355934.355936.
    public static double BrownDennis(double[] x) =>
        Enumerable
            .Range(1, 20)
            .Sum(i =>
            {
                double t = i / 5.0;
                double a = x[0] + t * x[1] - Math.Exp(t);
                double b = x[2] + x[3] * Math.Sin(t) - Math.Cos(t);
                return (a * a + b * b) * (a * a + b * b);
            });

    public static double KowalikOsborne(double[] x)
    {
        double[] y = [0.1957, 0.1947, 0.1735, 0.1600, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246];
        double[] u = [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625];
        return y.Select((v, i) => v - x[0] * (u[i] * u[i] + u[i] * x[1]) / (u[i] * u[i] + u[i] * x[2] + x[3]))
            .Sum(r => r * r);
    }

    public static double Bard(double[] x)
    {
        double[] y = [0.14, 0.18, 0.22, 0.25, 0.29, 0.32, 0.35, 0.39, 0.37, 0.58, 0.73, 0.96, 1.34, 2.10, 4.39];
        return y.Select(
                (v, k) =>
                {
                    (double u, double w) = (k + 1, 15 - k);
                    return v - (x[0] + u / (w * x[1] + Math.Min(u, w) * x[2]));
                }
            )
            .Sum(r => r * r);
    }

    public static double Watson(double[] x)
    {
        double sum = x[0] * x[0] + Math.Pow(x[1] - x[0] * x[0] - 1, 2);
        for (int i = 1; i <= 29; i++)
        {
            double t = i / 29.0;
            double slope = Enumerable.Range(1, x.Length - 1).Sum(j => j * x[j] * Math.Pow(t, j - 1));
            double value = Enumerable.Range(0, x.Length).Sum(j => x[j] * Math.Pow(t, j));
            sum += Math.Pow(slope - value * value - 1, 2);
        }
        return sum;
    }

    public static double Branin(double[] x)
    {
        double a = x[1] - 5.1 / (4 * Math.PI * Math.PI) * x[0] * x[0] + 5 / Math.PI * x[0] - 6;
        return a * a + 10 * (1 - 1 / (8 * Math.PI)) * Math.Cos(x[0]) + 10;
    }

    public static double SixHumpCamel(double[] x)
    {
        (double a, double b) = (x[0] * x[0], x[1] * x[1]);
        return (4 - 2.1 * a + a * a / 3) * a + x[0] * x[1] + (-4 + 4 * b) * b;
    }

    public static double Michalewicz(double[] x) =>
        -x.Select((v, i) => Math.Sin(v) * Math.Pow(Math.Sin((i + 1) * v * v / Math.PI), 20)).Sum();

    public static double StyblinskiTang(double[] x) => 0.5 * x.Sum(v => v * v * v * v - 16 * v * v + 5 * v);

    public static double Schwefel(double[] x) => -x.Sum(v => v * Math.Sin(Math.Sqrt(Math.Abs(v))));
}
