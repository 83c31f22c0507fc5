/** The very fonts the PDF is set in, so that what is seen is what prints. Each file is fetched when a letter of it is drawn. */
import '@fontsource/archivo/400.css';
import '@fontsource/archivo/700.css';
import '@fontsource/archivo-narrow/400.css';
import '@fontsource/archivo-narrow/700.css';
import '@fontsource/noto-sans-arabic/400.css';
import '@fontsource/noto-sans-arabic/700.css';
import '@fontsource/noto-sans-hebrew/400.css';
import '@fontsource/noto-sans-hebrew/700.css';
import '@fontsource/noto-emoji/400.css';
import '@fontsource/noto-emoji/700.css';
