namespace FuelHistory.Core.LeakDown;

/// <summary>Seven and fifteen points on -1..1: the difference of the two rules tells whether the interval must be halved.
/// The points are those of Gauss and of Kronrod (Kronrod, Nodes and Weights of Quadrature Formulas, 1965).</summary>
internal static class GaussKronrod
{
    private static readonly double[] Half =
    [
        0.991455371120812639206854697526329, 0.949107912342758524526189684047851, 0.864864423359769072789712788640926, 0.741531185599394439863864773280788,
        0.586087235467691130294144691693013, 0.405845151377397166906606412076961, 0.207784955007898467600689403773245,
    ];

    private static readonly double[] KronrodHalf =
    [
        0.022935322010529224963732008058970, 0.063092092629978553290700663189204, 0.104790010322250183839876322541518, 0.140653259715525918745189590510238,
        0.169004726639267902826583426598550, 0.190350578064785409913256402421014, 0.204432940075298892414161999234649,
    ];

    private static readonly double[] GaussHalf = [0, 0.129484966168869693270611432679082, 0, 0.279705391489276667901467771423780, 0, 0.381830050505118944950369775488975, 0];

    public const int Points = 15;

    public static readonly double[] Nodes = [.. Half.Select(x => -x), 0, .. Half.Reverse()];

    public static readonly double[] Kronrod = [.. KronrodHalf, 0.209482141084727828012999174891714, .. KronrodHalf.Reverse()];

    public static readonly double[] Gauss = [.. GaussHalf, 0.417959183673469387755102040816327, .. GaussHalf.Reverse()];
}
