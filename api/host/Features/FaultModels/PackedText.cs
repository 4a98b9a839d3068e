using System.IO.Compression;
using System.Text;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>Texts of fault models as they are kept: a tenth of their size.</summary>
internal static class PackedText
{
    public static byte[] Pack(string text)
    {
        using MemoryStream packed = new();
        using (GZipStream into = new(packed, CompressionLevel.Optimal))
        {
            into.Write(Encoding.UTF8.GetBytes(text));
        }

        return packed.ToArray();
    }

    public static string Unpack(byte[] packed) => Encoding.UTF8.GetString(Bytes(packed));

    /// <summary>The text in UTF-8.</summary>
    public static byte[] Bytes(byte[] packed)
    {
        using GZipStream from = new(new MemoryStream(packed), CompressionMode.Decompress);
        using MemoryStream bytes = new();
        from.CopyTo(bytes);
        return bytes.ToArray();
    }
}
