using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;

namespace FuelHistory.Host.Features.LeakImports;

/// <summary>A file on its way in: packed into a temporary file while it arrives, so that its size costs no memory and no lock is
/// held while a slow sender sends.</summary>
internal sealed class Upload : IAsyncDisposable
{
    public const int Largest = 100 * 1024 * 1024;

    private const int LongestField = 400, MostFields = 20;
    private readonly FileStream packed = new(
        Path.GetTempFileName(), FileMode.Open, FileAccess.ReadWrite, FileShare.None, 64 * 1024, FileOptions.DeleteOnClose | FileOptions.Asynchronous);

    private Upload()
    {
    }

    public long Bytes { get; private set; }
    public string Sha256 { get; private set; } = "";
    public Encoding Encoding { get; private set; } = Strict;

    /// <summary>Fields of a form that came with the file.</summary>
    public Dictionary<string, string> Fields { get; } = [];

    /// <summary>More than one file in the form.</summary>
    public bool Several { get; private set; }

    private static Encoding Strict => new UTF8Encoding(false, throwOnInvalidBytes: true);

    public static async Task<Upload> Receive(HttpRequest request, CancellationToken cancelled)
    {
        Upload upload = new();
        try
        {
            await upload.Fill(request, cancelled);
            return upload;
        }
        catch
        {
            await upload.DisposeAsync();
            throw;
        }
    }

    /// <summary>The file as it was sent.</summary>
    public Stream Content()
    {
        packed.Position = 0;
        return new GZipStream(packed, CompressionMode.Decompress, leaveOpen: true);
    }

    /// <summary>The packed file.</summary>
    public Stream Packed()
    {
        packed.Position = 0;
        return packed;
    }

    public ValueTask DisposeAsync() => packed.DisposeAsync();

    private async Task Fill(HttpRequest request, CancellationToken cancelled)
    {
        var type = MediaTypeHeaderValue.Parse(request.ContentType);
        if (type.MediaType != "multipart/form-data")
        {
            await Pack(request.Body, type.Charset.Value, cancelled);
            return;
        }

        if (HeaderUtilities.RemoveQuotes(type.Boundary).Value is not { Length: > 0 } boundary)
        {
            throw new BadHttpRequestException("The form has no boundary; let the program that sends it set the Content-Type.");
        }

        MultipartReader reader = new(boundary, request.Body);
        try
        {
            while (await reader.ReadNextSectionAsync(cancelled) is { } section)
            {
                await Take(section, cancelled);
            }
        }
        catch (Exception e) when (e is InvalidDataException || (e is IOException io and not BadHttpRequestException && !Unexpected.IsDiskFull(io)))
        {
            throw new BadHttpRequestException("The form breaks off or is not put together as multipart/form-data says.", e);
        }
    }

    private async Task Take(MultipartSection section, CancellationToken cancelled)
    {
        if (section.AsFileSection() is { } file)
        {
            Several = Bytes > 0;
            if (!Several)
            {
                var charset = section.ContentType is { } text && MediaTypeHeaderValue.TryParse(text, out var type) ? type.Charset.Value : null;
                await Pack(file.FileStream!, charset, cancelled);
            }
        }
        else if (section.AsFormDataSection() is { } field)
        {
            using StreamReader reader = new(section.Body, Encoding.UTF8);
            var buffer = new char[LongestField + 1];
            var length = await reader.ReadBlockAsync(buffer, cancelled);
            if (length > LongestField || Fields.Count >= MostFields)
            {
                throw new BadHttpRequestException($"The form has too many or too long fields; the file goes into a part with a file name, {LongestField} characters are enough for the others.");
            }

            Fields[field.Name] = new string(buffer, 0, length);
        }
    }

    private async Task Pack(Stream from, string? charset, CancellationToken cancelled)
    {
        Encoding = Named(charset);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        await using (GZipStream into = new(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            var buffer = new byte[64 * 1024];
            for (int read; (read = await from.ReadAsync(buffer, cancelled)) > 0;)
            {
                Bytes += read;
                hash.AppendData(buffer, 0, read);
                await into.WriteAsync(buffer.AsMemory(0, read), cancelled);
            }
        }

        Sha256 = Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static Encoding Named(string? charset)
    {
        if (charset is null or "")
        {
            return Strict;
        }

        try
        {
            var name = charset.Trim('"');
            return (CodePagesEncodingProvider.Instance.GetEncoding(name, EncoderFallback.ExceptionFallback, DecoderFallback.ExceptionFallback)
                ?? Encoding.GetEncoding(name, EncoderFallback.ExceptionFallback, DecoderFallback.ExceptionFallback));
        }
        catch (ArgumentException)
        {
            throw new BadHttpRequestException($"The charset \"{charset}\" is not known; send the file as UTF-8, or name another (windows-1252, iso-8859-1, utf-16).");
        }
    }
}
