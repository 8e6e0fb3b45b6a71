using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability;

/// <summary>Linear lateral dynamics of a rigid craft about a trim: everything that decides whether it rides.</summary>
/// <remarks>
/// Coordinates are q = (x, y, tilt_x, tilt_y): offset of the centre of mass (m) and small rotation about beam x and y
/// (rad). With the body axis n = (tilt_y, −tilt_x, 1), the angular momentum across the beam of a craft that spins at W
/// about n is L = I1 (tilt_x', tilt_y') + I3 W (tilt_y, −tilt_x) when both transverse inertias are I1, and L' = T gives
/// <code>
/// m x''  = F_x        I1 tilt_x'' + I3 W tilt_y' = T_x
/// m y''  = F_y        I1 tilt_y'' − I3 W tilt_x' = T_y        (F, T) = K q − D q'
/// </code>
/// T is in beam axes; the two forms agree to first order because T vanishes at the trim. A craft whose transverse
/// inertias differ is written in axes that turn with it (see <see cref="StabilityAnalysis"/>). Roll about the beam is not
/// part of the lateral model. Immutable; safe to share between threads.
/// </remarks>
public sealed record LinearModel
{
    /// <summary>Rest mass, kg, positive.</summary>
    public required double MassKilograms { get; init; }

    /// <summary>Inertia about the centre of mass, kg m², in beam axes at the trim (spin angle zero).</summary>
    public required Mat3 InertiaKilogramSquareMetres { get; init; }

    /// <summary>
    /// K, 4×4, at spin angle zero: rows F_x, F_y (N/m, N/rad), T_x, T_y (N, N m/rad); columns x, y, tilt_x, tilt_y.
    /// </summary>
    public required double[][] Jacobian { get; init; }

    /// <summary>Derivatives of T_z by x, y (N), tilt_x, tilt_y (N m/rad). They matter only through products of inertia.</summary>
    public double[] AxialTorqueDerivatives { get; init; } = [0, 0, 0, 0];

    /// <summary>Optional D, 4×4: force and torque −D q' (N s/m, N s/rad; N s, N m s/rad). Null: no damping.</summary>
    public double[][]? Damping { get; init; }

    /// <summary>Spin W about the body axis, rad/s; positive is right-handed about the direction in which light travels.</summary>
    public double SpinRadiansPerSecond { get; init; }

    /// <summary>Vouched error of the Jacobian, relative to its largest entry of each kind (force or torque by offset or tilt).</summary>
    public double RelativeError { get; init; } = 1e-12;

    /// <summary>Axial force at the trim, N: sets the size below which an entry is taken as zero. Zero: unknown.</summary>
    public double ThrustNewtons { get; init; }

    /// <summary>Turning the craft about its own axis leaves the light pressure as it is.</summary>
    public bool CraftIsAxisymmetric { get; init; } = true;

    /// <summary>The beam is the same in every direction from its axis.</summary>
    public bool BeamIsAxisymmetric { get; init; } = true;

    /// <summary>
    /// The Jacobian in beam axes as a function of spin angle (rad), needed only for a spinning craft when neither the
    /// beam nor the craft is axisymmetric. It must be pure and of period 2π.
    /// </summary>
    public Func<double, double[][]>? JacobianAtSpinAngle { get; init; }

    /// <summary>Radius of gyration across the axis, m: the craft's size where the model needs one.</summary>
    public double GyrationRadiusMetres =>
        Math.Sqrt(0.5 * (InertiaKilogramSquareMetres.Row0.X + InertiaKilogramSquareMetres.Row1.Y) / MassKilograms);

    /// <summary>Builds the model of a craft at a trim found by <see cref="LateralTrim.Find"/>.</summary>
    /// <param name="mass">Mass properties, body axes.</param>
    /// <param name="engine">Light pressure; used again only when the spinning craft needs its Jacobian at other spin angles.</param>
    /// <param name="trim">A trim that was found.</param>
    /// <param name="spinRadiansPerSecond">Spin about the body axis, rad/s.</param>
    /// <param name="craftIsAxisymmetric">Whether the light pressure is unchanged when the craft turns about its axis.</param>
    /// <param name="beamIsAxisymmetric">Whether the beam is the same in every direction from its axis.</param>
    /// <exception cref="ArgumentException">The trim was not found, or a value is unphysical.</exception>
    public static LinearModel FromTrim(
        MassProperties mass,
        IPressureEngine engine,
        LateralTrim trim,
        double spinRadiansPerSecond = 0,
        bool craftIsAxisymmetric = true,
        bool beamIsAxisymmetric = true
    )
    {
        if (trim.Pose is not { } pose || trim.Derivatives is not { } slopes)
        {
            throw new ArgumentException($"There is no trim to linearise about: {trim.Summary}", nameof(trim));
        }
        Mat3 turn = pose.BeamFromBody;
        bool symmetric = craftIsAxisymmetric && beamIsAxisymmetric && !trim.IsDisplaced;
        PressureReading[] columns = [slopes.ByOffsetX, slopes.ByOffsetY, slopes.ByTiltX, slopes.ByTiltY];
        return new LinearModel
        {
            MassKilograms = mass.MassKilograms,
            InertiaKilogramSquareMetres = turn * mass.InertiaKilogramSquareMetres * turn.Transposed,
            Jacobian = symmetric ? SymmetricStiffness.Nearest(slopes.LateralJacobian()) : slopes.LateralJacobian(),
            AxialTorqueDerivatives = symmetric ? [0, 0, 0, 0] : [.. columns.Select(c => c.TorqueNewtonMetres.Z)],
            SpinRadiansPerSecond = spinRadiansPerSecond,
            RelativeError = slopes.RelativeError,
            ThrustNewtons = Math.Abs(trim.Reading?.ForceNewtons.Z ?? 0),
            CraftIsAxisymmetric = craftIsAxisymmetric,
            BeamIsAxisymmetric = beamIsAxisymmetric,
            JacobianAtSpinAngle = angle =>
                engine
                    .Differentiate(pose with { BeamFromBody = pose.BeamFromBody * Mat3.Rotation(Vec3.UnitZ, angle) })
                    .LateralJacobian(),
        }.Checked();
    }

    /// <summary>The same model after a check of every number in it.</summary>
    /// <exception cref="ArgumentException">A value is not finite, has the wrong shape or is unphysical; the message says which.</exception>
    public LinearModel Checked()
    {
        Require.Positive(MassKilograms);
        Require.Finite(SpinRadiansPerSecond);
        Require.NotNegative(ThrustNewtons);
        Require.Between(RelativeError, 0, 1, upperIncluded: false);
        CheckInertia(InertiaKilogramSquareMetres);
        CheckMatrix(Jacobian, nameof(Jacobian));
        if (Damping is not null)
        {
            CheckMatrix(Damping, nameof(Damping));
        }
        if (AxialTorqueDerivatives.Length != 4 || !AxialTorqueDerivatives.All(double.IsFinite))
        {
            throw new ArgumentException(
                "AxialTorqueDerivatives must be four finite numbers (by x, y, tilt_x, tilt_y)."
            );
        }
        return this;
    }

    internal static void CheckMatrix(double[][] matrix, string name)
    {
        bool isGood = matrix.Length == 4;
        foreach (double[] row in matrix)
        {
            isGood &= row.Length == 4;
            foreach (double entry in row)
            {
                isGood &= double.IsFinite(entry);
            }
        }
        if (!isGood)
        {
            throw new ArgumentException($"{name} must be 4 rows of 4 finite numbers (rows F_x, F_y, T_x, T_y).");
        }
    }

    private static double LargestOf(in Vec3 row) =>
        Math.Max(Math.Abs(row.X), Math.Max(Math.Abs(row.Y), Math.Abs(row.Z)));

    private static void CheckInertia(in Mat3 inertia)
    {
        double largest = Math.Max(LargestOf(inertia.Row0), Math.Max(LargestOf(inertia.Row1), LargestOf(inertia.Row2)));
        Vec3 skew = new(
            inertia.Row0.Y - inertia.Row1.X,
            inertia.Row0.Z - inertia.Row2.X,
            inertia.Row1.Z - inertia.Row2.Y
        );
        double minor = inertia.Row0.X * inertia.Row1.Y - inertia.Row0.Y * inertia.Row1.X;
        bool positive = inertia.Row0.X > 0 && minor > 0 && inertia.Determinant > 0;
        if (!double.IsFinite(largest) || skew.Length > 1e-9 * largest || !positive)
        {
            throw new ArgumentException(
                "The inertia must be a finite, symmetric, positive definite matrix in kg m²; "
                    + "a craft without extent has no rotational dynamics."
            );
        }
    }
}
