namespace FuelHistory.Core.LeakDown;

/// <summary>Points on -1..1 with two rules: their difference tells whether the interval must be halved.
/// The points are those of Gauss and of Kronrod (Kronrod, Nodes and Weights of Quadrature Formulas, 1965).</summary>
internal sealed class GaussKronrod
{
    /// <summary>Three points and seven: for what is smooth.</summary>
    public static readonly GaussKronrod Small = new(
        [0.960491268708020253423507092629080, 0.774596669241483377035853079956480, 0.434243749346802558002071502844628],
        [0.104656226026467265193823857192073, 0.268488089868333440728569280666710, 0.401397414775962222905051818618432], 0.450916538658474142345110087045571,
        [0, 0.555555555555555555555555555555556, 0], 0.888888888888888888888888888888889);

    /// <summary>Seven points and fifteen.</summary>
    public static readonly GaussKronrod Large = new(
        [
            0.991455371120812639206854697526329, 0.949107912342758524526189684047851, 0.864864423359769072789712788640926, 0.741531185599394439863864773280788,
            0.586087235467691130294144691693013, 0.405845151377397166906606412076961, 0.207784955007898467600689403773245,
        ],
        [
            0.022935322010529224963732008058970, 0.063092092629978553290700663189204, 0.104790010322250183839876322541518, 0.140653259715525918745189590510238,
            0.169004726639267902826583426598550, 0.190350578064785409913256402421014, 0.204432940075298892414161999234649,
        ], 0.209482141084727828012999174891714,
        [0, 0.129484966168869693270611432679082, 0, 0.279705391489276667901467771423780, 0, 0.381830050505118944950369775488975, 0], 0.417959183673469387755102040816327);

    private GaussKronrod(double[] half, double[] kronrod, double kronrodMiddle, double[] gauss, double gaussMiddle)
    {
        Nodes = [.. half.Select(x => -x), 0, .. half.Reverse()];
        Kronrod = [.. kronrod, kronrodMiddle, .. kronrod.Reverse()];
        Gauss = [.. gauss, gaussMiddle, .. gauss.Reverse()];
    }

    public double[] Nodes { get; }

    public double[] Kronrod { get; }

    public double[] Gauss { get; }
}
